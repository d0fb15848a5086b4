// gainscape record: the record of a map that is there already.
import { canonicalJson } from "../base/canonical.js";
import { readMap } from "../flow/read-map.js";
import { EXIT } from "./exit.js";
import { recordedLine, recordingOf } from "./recording.js";

export interface RecordOptions {
  readonly trend: string;
  readonly date: string;
  readonly quiet?: boolean;
  readonly json?: boolean;
}

export async function recordCommand(paths: readonly string[], options: RecordOptions): Promise<number> {
  const maps = paths.map((path) => readMap(path));
  const record = await recordingOf(
    options,
    maps.map(({ airframe }) => airframe.name),
  );
  const records = [];
  for (const map of maps) {
    const recorded = await record(map);
    records.push(recorded);
    if (!options.quiet && !options.json) process.stdout.write(recordedLine(recorded));
  }
  if (options.json) process.stdout.write(`${canonicalJson({ records })}\n`);
  return EXIT.done;
}
