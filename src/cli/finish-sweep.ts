// The part of gainscape sweep that follows theory's first answer: plan, run, reduce, report, write.
import { canonicalJson } from "../base/canonical.js";
import { type ChangedMaps, changeRequests, mapChanges } from "../flow/changes.js";
import { effectFiles } from "../flow/paths.js";
import { type MapRequest, type MapResult, runMap } from "../flow/run-map.js";
import { sweepLine } from "../flow/sweep-lines.js";
import { type SweepFiles, sweepOutcome } from "../flow/sweep-outcome.js";
import { reportFiles, writeReport } from "../flow/write.js";
import { writeEffects } from "../flow/write-effects.js";
import type { FirstAnswer } from "../map/first-answer.js";
import { renderEffectsText, renderSummary } from "../report/index.js";
import { againstFirstLines } from "../words/first-answer-words.js";
import { settledWords } from "../words/settled-words.js";
import { drawingErrors, written } from "./drawing-errors.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { recordedLine } from "./recording.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import type { SweepFolder } from "./sweep-folder.js";

/** Simulates the request and its changes, and writes map and report. `first`: what theory said before, where it was printed. */
export async function finishSweep(
  request: MapRequest,
  { folder, names, record }: SweepFolder,
  options: SimulatingOptions,
  first: FirstAnswer | null = null,
): Promise<number> {
  const changes = changeRequests(request);
  const plans = [request.plan, ...changes.flatMap(({ request: one }) => (one === null ? [] : [one.plan]))];
  const { attempt, report, code } = drawingErrors();
  forecast(plans, folder, names, options);
  const { result, changed } = await withProgress(options, async (how) => {
    const result = await runMap(request, how);
    await attempt(() => writeReport(result.map, folder, how));
    if (changes.length === 0) return { result, changed: null };
    const changed = await mapChanges(request, changes, result.map, how);
    await attempt(() => writeEffects(changed, result.map, folder, how.signal));
    return { result, changed };
  });
  report();
  const recorded = await record(result.map);
  const files = {
    ...written({ ...reportFiles(folder), ...(changed === null ? {} : effectFiles(folder)) }),
    ...(recorded === null ? {} : { trend: recorded.file }),
  };
  const outcome = () => sweepOutcome(result, files, changed);
  if (options.json) process.stdout.write(`${canonicalJson(outcome())}\n`);
  else if (options.jsonLines) process.stdout.write(sweepLine({ record: "outcome", ...outcome() }));
  else if (!options.quiet) process.stdout.write(`${sweepText(result, files, changed, first)}${recordedLine(recorded)}`);
  return code(EXIT.done);
}

function sweepText(
  result: MapResult,
  { page, effectsPage }: SweepFiles,
  changed: ChangedMaps | null,
  first: FirstAnswer | null,
): string {
  const lines = [
    renderSummary(result.map),
    ...(changed === null ? [] : [renderEffectsText(changed.effects)]),
    ...(first === null ? [] : againstFirstLines(first, result.map)),
    cost(result),
    ...(changed === null ? [] : [`${changed.trials} trials of changed models.`]),
    ...(page === undefined ? [] : [`Report: ${page}`]),
    ...(effectsPage === undefined ? [] : [`Changes: ${effectsPage}`]),
  ];
  return `${lines.join("\n")}\n`;
}

function cost({ map, figures, unchanged }: MapResult): string {
  const leftOut = settledWords(map);
  const said = spent(figures, unchanged);
  return leftOut === null ? said : `${said}\n${leftOut}.`;
}

function spent(figures: MapResult["figures"], unchanged: boolean): string {
  const { trials, simulated: result, gridSeconds, restSeconds } = figures;
  if (unchanged) return `Nothing has changed since this map was cached, with its ${trials} trials.`;
  const seconds = gridSeconds + restSeconds;
  const fromCache = trials === result.trials ? "" : `, ${trials - result.trials} of them cached`;
  if (result.trials === 0) return `${trials} trials${fromCache}, in ${seconds.toFixed(1)} s.`;
  const perStep = (1e9 * seconds) / result.steps;
  return `${trials} trials${fromCache}; ${(result.steps / 1e6).toFixed(0)} million steps in ${seconds.toFixed(1)} s: ${Math.round(result.trials / seconds)} trials a second, ${perStep.toFixed(1)} ns a step.`;
}
