// gainscape baseline: simulate the sweep's base model and write what a later comparison needs, for review.
import { basename, dirname } from "node:path";
import { printable } from "../base/problem.js";
import { unlessInterrupted } from "../files/interrupted.js";
import { earlierBaseline, replacedWords, writeBaseline } from "../flow/baseline.js";
import { baselineRequest } from "../flow/gate.js";
import { checkBaselineOwner } from "../flow/owner.js";
import { baselineFile } from "../flow/paths.js";
import { mapFor } from "../flow/run-map.js";
import { renderSummary } from "../report/index.js";
import { EXIT } from "./exit.js";
import { forecast } from "./forecast.js";
import { type RecordingOptions, recordedLine, recordingOf } from "./recording.js";
import { type SimulatingOptions, withProgress } from "./simulating.js";
import { withLock } from "./with-lock.js";

export interface BaselineOptions extends SimulatingOptions, RecordingOptions {
  readonly model?: string;
  readonly baselines: string;
}

export async function baselineCommand(path: string, options: BaselineOptions): Promise<number> {
  const request = baselineRequest(path, options.model);
  const file = baselineFile(options.baselines, request.sweep.value.name, request.model.value);
  checkBaselineOwner(file, request.model.value);
  const record = await recordingOf(options, [request.model.value.name]);
  const earlier = earlierBaseline(file);
  const map = await withLock(file, async () => {
    forecast([request.plan], dirname(file), [basename(file)], options);
    const map = await withProgress(options, (how) => mapFor(request, how));
    await unlessInterrupted(options.signal, file);
    writeBaseline(map, file);
    return map;
  });
  for (const axis of ["roll", "pitch"] as const)
    if (map.axes[axis].pinned?.safe === false)
      process.stderr.write(`The pinned tune of ${axis} is not safe in this baseline, so its gate will be skipped.\n`);
  const replacement = earlier === null ? null : replacedWords(earlier, map);
  if (replacement !== null) process.stderr.write(printable(`${file}: ${replacement}`).concat("\n"));
  const recorded = recordedLine(await record(map));
  if (!options.quiet)
    process.stdout.write(`${renderSummary(map)}Baseline, to be reviewed and committed: ${file}\n${recorded}`);
  return EXIT.done;
}
