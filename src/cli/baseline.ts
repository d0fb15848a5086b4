// gainscape baseline: fly the sweep's base model and keep what a later comparison needs, for review.
import { basename, dirname } from "node:path";
import { unlessInterrupted } from "../files/interrupted.js";
import { writeBaseline } from "../flow/baseline.js";
import { baselineRequest } from "../flow/gate.js";
import { checkBaselineOwner } from "../flow/owner.js";
import { baselineFile } from "../flow/paths.js";
import { mapFor } from "../flow/run-map.js";
import { renderSummary } from "../report/index.js";
import { claimed } from "./claim.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";

export interface BaselineOptions extends SimulatingOptions {
  readonly model?: string;
  readonly baselines: string;
}

export async function baselineCommand(path: string, options: BaselineOptions): Promise<number> {
  const flight = baselineRequest(path, options.model);
  const file = baselineFile(options.baselines, flight.sweep.value.name, flight.model.value);
  checkBaselineOwner(file, flight.model.value);
  const map = await claimed(file, async () => {
    forecast([flight.plan], dirname(file), [basename(file)], options);
    const flown = await withProgress(options, (how) => mapFor(flight, how));
    await unlessInterrupted(options.signal, file);
    writeBaseline(flown, file);
    return flown;
  });
  for (const axis of ["roll", "pitch"] as const)
    if (map.axes[axis].pinned?.safe === false)
      process.stderr.write(`The pinned tune of ${axis} is not safe in this baseline, so its gate will be skipped.\n`);
  if (!options.quiet) process.stdout.write(`${renderSummary(map)}Baseline, to be reviewed and committed: ${file}\n`);
  return EXIT.done;
}
