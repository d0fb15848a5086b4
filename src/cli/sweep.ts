// gainscape sweep: read, plan, run, reduce, report, write, leave.
import { join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import { checkMapOwner } from "../flow/owner.js";
import { planFor } from "../flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../flow/read.js";
import { type MapRequest, type MapResult, runMap } from "../flow/run-map.js";
import { outputFolder, REPORT_NAMES, reportFiles, writeReport } from "../flow/write.js";
import { renderSummary } from "../report/index.js";
import type { Share } from "../run/share.js";
import { claimed } from "./claim.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { pastUndrawn, written } from "./past-undrawn.js";
import { shareCommand } from "./share.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";

export interface SweepOptions extends SimulatingOptions {
  readonly model?: string;
  readonly out?: string;
  readonly shard?: Share;
}

export async function sweepCommand(path: string, options: SweepOptions): Promise<number> {
  const flight = sweepRequest(path, options.model);
  if (options.shard === undefined) return flownSweep(flight, options);
  const command = { name: "sweep", sweep: path, model: flight.model.document.file } as const;
  const folder = options.out ?? join(outputFolder(flight.plan), "shards");
  return shareCommand(command, [flight.plan], options.shard, folder, options);
}

/** The flight carried out: map and report. */
export async function flownSweep(flight: MapRequest, options: SweepOptions): Promise<number> {
  const folder = options.out ?? outputFolder(flight.plan);
  checkMapOwner(folder, flight.model.value);
  const { past, tell, code } = pastUndrawn();
  const flown = await claimed(folder, () => {
    forecast([flight.plan], folder, REPORT_NAMES, options);
    return withProgress(options, async (how) => {
      const flown = await runMap(flight, how);
      await past(() => writeReport(flown.map, folder, how));
      return flown;
    });
  });
  tell();
  const files = written(reportFiles(folder));
  const page = files.page === undefined ? "" : `Report: ${files.page}\n`;
  if (options.json) process.stdout.write(`${canonicalJson(outcome(flown, files))}\n`);
  else if (!options.quiet) process.stdout.write(`${renderSummary(flown.map)}\n${cost(flown)}\n${page}`);
  return code(EXIT.done);
}

export function sweepRequest(path: string, modelFile?: string): MapRequest {
  const sweep = readSweep(path);
  const model = readAirframe(modelFile ?? modelOf(sweep));
  return { sweep, model, plan: planFor(model, sweep) };
}

function cost({ figures, unchanged }: MapResult): string {
  const { trials, flown, gridSeconds, restSeconds } = figures;
  if (unchanged) return `Nothing has changed since this map was kept, with its ${trials} trials.`;
  const seconds = gridSeconds + restSeconds;
  const kept = trials === flown.trials ? "" : `, ${trials - flown.trials} of them kept from before`;
  if (flown.trials === 0) return `${trials} trials${kept}, in ${seconds.toFixed(1)} s.`;
  const perStep = (1e9 * seconds) / flown.steps;
  return `${trials} trials${kept}; ${(flown.steps / 1e6).toFixed(0)} million steps in ${seconds.toFixed(1)} s: ${Math.round(flown.trials / seconds)} trials a second, ${perStep.toFixed(1)} ns a step.`;
}

const outcome = ({ map, figures, unchanged }: MapResult, files: object) => ({
  airframe: map.airframe,
  sweep: map.sweep,
  roll: { start: map.axes.roll.start, startReason: map.axes.roll.startReason, safeShare: map.axes.roll.safeShare },
  pitch: { start: map.axes.pitch.start, startReason: map.axes.pitch.startReason, safeShare: map.axes.pitch.safeShare },
  files,
  figures,
  unchanged,
});
