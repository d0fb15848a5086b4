// gainscape sweep: read, plan, run, reduce, report, write, leave.
import { availableParallelism } from "node:os";
import { shellLine } from "../base/shell-words.js";
import { version } from "../base/version.js";
import { planFor } from "../flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../flow/read.js";
import { type RunFigures, simulate } from "../flow/simulate.js";
import { checkOutput, outputFolder, writeReport } from "../flow/write.js";
import type { StabilityMap } from "../map/format.js";
import { renderSummary } from "../report/index.js";
import { EXIT } from "./exit.js";
import { progressView, SILENT } from "./progress.js";
import { untilInterrupted } from "./signals.js";

export interface SweepOptions {
  readonly model?: string;
  readonly out?: string;
  readonly workers?: number;
  readonly quiet?: boolean;
  readonly json?: boolean;
}

export async function sweepCommand(path: string, options: SweepOptions, words: readonly string[]): Promise<number> {
  const sweep = readSweep(path);
  const model = readAirframe(options.model ?? modelOf(sweep));
  const plan = planFor(model, sweep);
  const folder = options.out ?? outputFolder(plan);
  checkOutput(folder);
  const view = options.quiet || options.json ? SILENT : progressView(process.stderr);
  const { map, figures } = await untilInterrupted((signal) =>
    simulate(plan, {
      workers: options.workers ?? availableParallelism(),
      signal,
      onProgress: view.show,
      provenance: {
        productVersion: version(),
        command: shellLine(["gainscape", ...words]),
        model: model.document.file,
        sweep: path,
      },
    }),
  ).finally(view.end);
  const files = await writeReport(map, folder);
  if (options.json) process.stdout.write(`${JSON.stringify(outcome(map, files, figures))}\n`);
  else if (!options.quiet) process.stdout.write(`${renderSummary(map)}\n${cost(figures)}\nReport: ${files.page}\n`);
  return EXIT.done;
}

function cost({ trials, steps, gridSeconds, searchSeconds }: RunFigures): string {
  const seconds = gridSeconds + searchSeconds;
  const perStep = (1e9 * seconds) / steps;
  return `${trials} trials, ${(steps / 1e6).toFixed(0)} million steps in ${seconds.toFixed(1)} s: ${Math.round(trials / seconds)} trials a second, ${perStep.toFixed(1)} ns a step.`;
}

const outcome = (map: StabilityMap, files: object, figures: RunFigures) => ({
  airframe: map.airframe,
  sweep: map.sweep,
  roll: { start: map.axes.roll.start, startReason: map.axes.roll.startReason, safeShare: map.axes.roll.safeShare },
  pitch: { start: map.axes.pitch.start, startReason: map.axes.pitch.startReason, safeShare: map.axes.pitch.safeShare },
  files,
  figures,
});
