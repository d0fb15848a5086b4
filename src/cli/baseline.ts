// gainscape baseline: fly the sweep's base model and keep what a later comparison needs, for review.
import { dirname } from "node:path";
import { unlessInterrupted } from "../files/interrupted.js";
import { writeBaseline } from "../flow/baseline.js";
import { baselineFlight } from "../flow/gate.js";
import { baselineFile } from "../flow/paths.js";
import { flownMap } from "../flow/run-map.js";
import { checkOutput } from "../flow/write.js";
import { renderSummary } from "../report/index.js";
import { EXIT } from "./exit.js";
import { type FlyingOptions, flying } from "./flying.js";

export interface BaselineOptions extends FlyingOptions {
  readonly model?: string;
  readonly baselines: string;
}

export async function baselineCommand(path: string, options: BaselineOptions): Promise<number> {
  const flight = baselineFlight(path, options.model);
  const file = baselineFile(options.baselines, flight.sweep.value.name, flight.model.value);
  checkOutput(dirname(file));
  const map = await flying(options, (how) => flownMap(flight, how));
  await unlessInterrupted(options.signal, file);
  writeBaseline(map, file);
  for (const axis of ["roll", "pitch"] as const)
    if (map.axes[axis].pinned?.safe === false)
      process.stderr.write(`The pinned tune of ${axis} is not safe in this baseline, so its gate will be skipped.\n`);
  if (!options.quiet) process.stdout.write(`${renderSummary(map)}Baseline, to be reviewed and committed: ${file}\n`);
  return EXIT.done;
}
