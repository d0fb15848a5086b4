// --trend and --date: every finished map leaves a record in its model's file. Where it could not go there is said before anything is
// simulated.
import { fileProblem, InputError, printable } from "../base/problem.js";
import { checkRecordPlace, type Recorded, writeRecord } from "../flow/trend-records.js";
import type { StabilityMap } from "../map/format.js";

export interface RecordingOptions {
  /** Folder or file of the records. */
  readonly trend?: string;
  readonly date?: string;
}

/** Records a finished map where the options ask for it. */
export type Recording = (map: StabilityMap) => Promise<Recorded | null>;

/** Checks the options against the models to come. InputError where one is without the other, or the place is another's. */
export async function recordingOf({ trend, date }: RecordingOptions, airframes: readonly string[]): Promise<Recording> {
  if (trend === undefined && date === undefined) return async () => null;
  if (trend === undefined || date === undefined) {
    const message =
      trend === undefined
        ? "goes with --trend, the folder of the records"
        : 'goes with --date, as --date "$(git log -1 --format=%cI)": a trend asks no clock';
    throw new InputError([fileProblem(trend === undefined ? "--date" : "--trend", message)]);
  }
  await checkRecordPlace(trend, airframes);
  return (map) => writeRecord(map, trend, date);
}

/** InputError where a share of a map is to be recorded: the whole is there only once the shares are merged. */
export function refuseRecording({ trend, date }: RecordingOptions): void {
  if (trend === undefined && date === undefined) return;
  throw new InputError([
    fileProblem("--shard", "leaves no record, its map is not whole; give --trend to gainscape merge"),
  ]);
}

/** "Trend: trends/sandpiper.jsonl", and a line end; nothing where nothing was to be recorded. */
export function recordedLine(recorded: Recorded | null): string {
  if (recorded === null) return "";
  return `${printable(`Trend: ${recorded.file}${recorded.added ? "" : ", which has this record already"}`)}\n`;
}
