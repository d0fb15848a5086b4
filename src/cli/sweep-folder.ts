// The folder of a sweep's files, checked and locked before anything is printed or simulated: whose map it holds, whether it takes the
// files, who else is writing, and where a record is to go.

import { checkOutput, outputFolder, REPORT_NAMES } from "../flow/output.js";
import { checkMapOwner } from "../flow/owner.js";
import { effectFiles } from "../flow/paths.js";
import type { SweepQuestion } from "../flow/request.js";
import { type Recording, type RecordingOptions, recordingOf } from "./recording.js";
import { withLock } from "./with-lock.js";

export interface SweepFolder {
  readonly folder: string;
  /** Files that will go into it. */
  readonly names: readonly string[];
  readonly record: Recording;
}

/** Does the work with the folder locked. InputError where the folder or the record's place will not do. */
export async function inSweepFolder<T>(
  { sweep: { value: sweep }, model: { value: airframe } }: SweepQuestion,
  options: RecordingOptions & { readonly out?: string },
  work: (place: SweepFolder) => Promise<T>,
): Promise<T> {
  const folder = options.out ?? outputFolder({ sweep, airframe });
  checkMapOwner(folder, airframe);
  const record = await recordingOf(options, [airframe.name]);
  const names = [...REPORT_NAMES, ...(sweep.changes === undefined ? [] : Object.values(effectFiles("")))];
  return withLock(folder, () => {
    checkOutput(folder, { names });
    return work({ folder, names, record });
  });
}
