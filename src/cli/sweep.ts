// gainscape sweep: read, plan, run, reduce, report, write.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { problemAt } from "../base/document.js";
import { InputError } from "../base/problem.js";
import type { Effect } from "../compare/effect-format.js";
import { changedModel, refuseChanges } from "../flow/changed-model.js";
import { type ChangedMaps, changeRequests, mapChanges } from "../flow/changes.js";
import { checkMapOwner } from "../flow/owner.js";
import { type EffectFiles, effectFiles } from "../flow/paths.js";
import { planFor } from "../flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../flow/read.js";
import { type MapRequest, type MapResult, runMap } from "../flow/run-map.js";
import { outputFolder, REPORT_NAMES, type ReportFiles, reportFiles, writeReport } from "../flow/write.js";
import { writeEffects } from "../flow/write-effects.js";
import type { AxisMap, StabilityMap } from "../map/format.js";
import { type Sure, sureOf } from "../map/sure.js";
import { renderEffectsText, renderSummary } from "../report/index.js";
import type { Share } from "../run/share.js";
import { findingWords } from "../words/finding-words.js";
import { firstToMeasure } from "../words/worth-words.js";
import { drawingErrors, written } from "./drawing-errors.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { type RecordingOptions, recordedLine, recordingOf, refuseRecording } from "./recording.js";
import { shareCommand } from "./share.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import { withLock } from "./with-lock.js";

export interface SweepOptions extends SimulatingOptions, RecordingOptions {
  readonly model?: string;
  /** Each "key=value", set anew in the model. */
  readonly set?: readonly string[];
  readonly out?: string;
  readonly shard?: Share;
}

export async function sweepCommand(path: string, options: SweepOptions): Promise<number> {
  if (options.set !== undefined && options.trend !== undefined) refuseChanges("a record");
  const request = sweepRequest(path, options.model, options.set);
  if (options.shard !== undefined && request.sweep.value.changes !== undefined) throw noShards(request);
  if (options.shard === undefined) return finishSweep(request, options);
  refuseRecording(options);
  const changes = options.set === undefined ? {} : { set: [...options.set] };
  const command = { name: "sweep", sweep: path, model: request.model.document.file, ...changes } as const;
  const folder = options.out ?? join(outputFolder(request.plan), "shards");
  return shareCommand(command, [request.plan], options.shard, folder, options);
}

/** Changed models are judged at the start of the model as it is, which no share knows. */
const noShards = ({ sweep: { document } }: MapRequest): InputError =>
  new InputError([
    problemAt(
      document,
      ["changes"],
      "a sweep with changes is simulated on one machine; leave --shard out, or the changes",
      "key",
    ),
  ]);

/** Simulates the request and its changes, and writes map and report. */
export async function finishSweep(request: MapRequest, options: SweepOptions): Promise<number> {
  const folder = options.out ?? outputFolder(request.plan);
  checkMapOwner(folder, request.model.value);
  const record = await recordingOf(options, [request.model.value.name]);
  const changes = changeRequests(request);
  const plans = [request.plan, ...changes.flatMap(({ request: one }) => (one === null ? [] : [one.plan]))];
  const { attempt, report, code } = drawingErrors();
  const { result, changed } = await withLock(folder, () => {
    forecast(
      plans,
      folder,
      [...REPORT_NAMES, ...(changes.length === 0 ? [] : Object.values(effectFiles("")))],
      options,
    );
    return withProgress(options, async (how) => {
      const result = await runMap(request, how);
      await attempt(() => writeReport(result.map, folder, how));
      if (changes.length === 0) return { result, changed: null };
      const changed = await mapChanges(request, changes, result.map, how);
      await attempt(() => writeEffects(changed, result.map, folder, how.signal));
      return { result, changed };
    });
  });
  report();
  const recorded = await record(result.map);
  const files = {
    ...written({ ...reportFiles(folder), ...(changed === null ? {} : effectFiles(folder)) }),
    ...(recorded === null ? {} : { trend: recorded.file }),
  };
  if (options.json) process.stdout.write(`${canonicalJson(outcome(result, files, changed))}\n`);
  else if (!options.quiet) process.stdout.write(`${sweepText(result, files, changed)}${recordedLine(recorded)}`);
  return code(EXIT.done);
}

type Files = Partial<ReportFiles & EffectFiles>;

function sweepText(result: MapResult, { page, effectsPage }: Files, changed: ChangedMaps | null): string {
  const lines = [
    renderSummary(result.map),
    ...(changed === null ? [] : [renderEffectsText(changed.effects)]),
    cost(result),
    ...(changed === null ? [] : [`${changed.trials} trials of changed models.`]),
    ...(page === undefined ? [] : [`Report: ${page}`]),
    ...(effectsPage === undefined ? [] : [`Changes: ${effectsPage}`]),
  ];
  return `${lines.join("\n")}\n`;
}

/** `set`: each "key=value", set anew in the model. */
export function sweepRequest(path: string, modelFile?: string, set: readonly string[] = []): MapRequest {
  const sweep = readSweep(path);
  const model = changedModel(readAirframe(modelFile ?? modelOf(sweep)), set);
  return { sweep, model, plan: planFor(model, sweep) };
}

function cost({ figures, unchanged }: MapResult): string {
  const { trials, simulated: result, gridSeconds, restSeconds } = figures;
  if (unchanged) return `Nothing has changed since this map was cached, with its ${trials} trials.`;
  const seconds = gridSeconds + restSeconds;
  const fromCache = trials === result.trials ? "" : `, ${trials - result.trials} of them cached`;
  if (result.trials === 0) return `${trials} trials${fromCache}, in ${seconds.toFixed(1)} s.`;
  const perStep = (1e9 * seconds) / result.steps;
  return `${trials} trials${fromCache}; ${(result.steps / 1e6).toFixed(0)} million steps in ${seconds.toFixed(1)} s: ${Math.round(result.trials / seconds)} trials a second, ${perStep.toFixed(1)} ns a step.`;
}

const outcome = ({ map, figures, unchanged }: MapResult, files: Files, changed: ChangedMaps | null) => ({
  airframe: map.airframe,
  sweep: map.sweep,
  ...(map.uncertaintyReason === undefined ? {} : { uncertaintyReason: map.uncertaintyReason }),
  roll: axisOutcome(map, map.axes.roll),
  pitch: axisOutcome(map, map.axes.pitch),
  ...(changed === null ? {} : { effects: changed.effects.effects.map(effectOutcome) }),
  files,
  figures,
  unchanged,
});

/** Without its map, which is in effects.json. */
function effectOutcome(effect: Effect) {
  const { map: _, ...found } = effect.found ?? { map: null };
  const finding = findingWords(effect).replaceAll("\u00a0", " ");
  return { ...effect, found: effect.found === null ? null : found, finding };
}

/** The start and its ground; where the map was made with draws, how sure they are. */
function axisOutcome(map: StabilityMap, axis: AxisMap) {
  const { start, startReason, startCauses, safeShare } = axis;
  const sure = sureOf(map, axis);
  const of = { start, startReason, startCauses, safeShare };
  return sure === null ? of : { ...of, confidence: confidenceOutcome(sure) };
}

const confidenceOutcome = ({ confidence, start, safeShare, worth }: Sure) => ({
  confidence,
  start,
  safeShare,
  measureFirst: firstToMeasure(worth),
});
