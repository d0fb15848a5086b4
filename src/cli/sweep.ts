// gainscape sweep: read, plan, run, reduce, report, write.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { changedModel, refuseChanges } from "../flow/changed-model.js";
import { checkMapOwner } from "../flow/owner.js";
import { planFor } from "../flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../flow/read.js";
import { type MapRequest, type MapResult, runMap } from "../flow/run-map.js";
import { outputFolder, REPORT_NAMES, reportFiles, writeReport } from "../flow/write.js";
import type { AxisMap, StabilityMap } from "../map/format.js";
import { type Sure, sureOf } from "../map/sure.js";
import { renderSummary } from "../report/index.js";
import type { Share } from "../run/share.js";
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
  if (options.shard === undefined) return finishSweep(request, options);
  refuseRecording(options);
  const changes = options.set === undefined ? {} : { set: [...options.set] };
  const command = { name: "sweep", sweep: path, model: request.model.document.file, ...changes } as const;
  const folder = options.out ?? join(outputFolder(request.plan), "shards");
  return shareCommand(command, [request.plan], options.shard, folder, options);
}

/** Simulates the request and writes map and report. */
export async function finishSweep(request: MapRequest, options: SweepOptions): Promise<number> {
  const folder = options.out ?? outputFolder(request.plan);
  checkMapOwner(folder, request.model.value);
  const record = await recordingOf(options, [request.model.value.name]);
  const { attempt, report, code } = drawingErrors();
  const result = await withLock(folder, () => {
    forecast([request.plan], folder, REPORT_NAMES, options);
    return withProgress(options, async (how) => {
      const result = await runMap(request, how);
      await attempt(() => writeReport(result.map, folder, how));
      return result;
    });
  });
  report();
  const recorded = await record(result.map);
  const files = { ...written(reportFiles(folder)), ...(recorded === null ? {} : { trend: recorded.file }) };
  const page = files.page === undefined ? "" : `Report: ${files.page}\n`;
  if (options.json) process.stdout.write(`${canonicalJson(outcome(result, files))}\n`);
  else if (!options.quiet)
    process.stdout.write(`${renderSummary(result.map)}\n${cost(result)}\n${page}${recordedLine(recorded)}`);
  return code(EXIT.done);
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

const outcome = ({ map, figures, unchanged }: MapResult, files: object) => ({
  airframe: map.airframe,
  sweep: map.sweep,
  ...(map.uncertaintyReason === undefined ? {} : { uncertaintyReason: map.uncertaintyReason }),
  roll: axisOutcome(map, map.axes.roll),
  pitch: axisOutcome(map, map.axes.pitch),
  files,
  figures,
  unchanged,
});

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
