// Files of records: where a model's file is, one read back, one more record in it.
import { basename, dirname, extname, join } from "node:path";
import { canonicalJson } from "../base/canonical.js";
import type { Document } from "../base/document.js";
import { modelFileName } from "../base/folder-name.js";
import { fileProblem, InputError, type Problem, Problems } from "../base/problem.js";
import { appendLine } from "../files/append.js";
import { namesIn } from "../files/binary.js";
import { isFile, isFolder } from "../files/folder.js";
import { readLines } from "../files/json-lines.js";
import { readYaml } from "../files/yaml.js";
import type { StabilityMap } from "../map/format.js";
import type { TrendRecord } from "../trend/format.js";
import { parseRecord } from "../trend/parse.js";
import { recordOf } from "../trend/record.js";
import { refuseOthers } from "./file-kind.js";
import { checkOutput } from "./output.js";

const ENDING = ".jsonl";
const EXPECTED = "records of a trend (JSON lines of gainscape record)";

/** What a file holds: the records of one model, and what is wrong with lines that are none. */
export interface RecordFile {
  readonly file: string;
  /** The model of the first record; null: there is none. */
  readonly airframe: string | null;
  readonly records: readonly TrendRecord[];
  readonly problems: readonly Problem[];
  /** Problems that were only counted. */
  readonly more: number;
}

/** The files of a folder, or the file itself. InputError where there are none. */
export function recordFiles(place: string): string[] {
  if (!isFolder(place)) return [place];
  const files = namesIn(place).filter((name) => extname(name) === ENDING);
  if (files.length > 0) return files.map((name) => join(place, name));
  throw new InputError([fileProblem(place, `holds no records of a trend (${ENDING}); gainscape record writes them`)]);
}

/**
 * Reads a file of records, or its first ones alone. A line that is none, or of another model, is one problem and costs no
 * other line.
 */
export async function readRecords(file: string, most = Number.POSITIVE_INFINITY): Promise<RecordFile> {
  refuseOthers(file, ["trend"], EXPECTED);
  const problems: Problem[] = [];
  let more = 0;
  const records = new Map<string, TrendRecord>();
  let airframe: string | null = null;
  await readLines(file, "a file of records", (line, number) => {
    try {
      const record = recordIn(file, line, number);
      airframe ??= record.airframe.name;
      if (record.airframe.name === airframe) records.set(record.seal, record);
      else if (problems.length < MOST_PROBLEMS) problems.push(otherModel(file, number, record, airframe));
      else more++;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const [first] = error.problems;
      if (first !== undefined && problems.length < MOST_PROBLEMS) problems.push(first);
      else more++;
    }
    return records.size < most;
  });
  return { file, airframe, records: [...records.values()], problems, more };
}

const MOST_PROBLEMS = 20; // of a file

const otherModel = (file: string, line: number, { airframe }: TrendRecord, expected: string): Problem => ({
  ...fileProblem(file, `a record of "${airframe.name}" in the file of "${expected}"; one file holds one model`),
  line,
  column: 1,
});

/** Places within a line are looked up only where something is wrong. */
function recordIn(file: string, text: string, number: number): TrendRecord {
  const placed = (): Document => readYaml(file, text);
  const document: Document = {
    file,
    data: dataIn(file, text, number),
    place: (path, of) => {
      try {
        return { line: number, column: placed().place(path, of).column };
      } catch {
        return { line: number, column: 1 };
      }
    },
  };
  return parseRecord(document, text.trim());
}

function dataIn(file: string, text: string, line: number): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const [, offset = "0"] = /position (\d+)/.exec(error instanceof Error ? error.message : "") ?? [];
    const column = /position/.test(String(error)) ? Number(offset) + 1 : text.length + 1;
    throw new InputError([
      { ...fileProblem(file, "not a record: JSON that cannot be read; was it cut short?"), line, column },
    ]);
  }
}

/** Where the records of a model go: the file, or a file of its own in the folder. */
export const recordFile = (place: string, airframe: string): string =>
  extname(place) === ENDING || isFile(place) ? place : join(place, `${modelFileName(airframe)}${ENDING}`);

/** Before the long work: InputError where the models' records could not go there. */
export async function checkRecordPlace(place: string, airframes: readonly string[]): Promise<void> {
  const problems = new Problems();
  for (const airframe of new Set(airframes))
    await problems.attemptLater(() => checkOwner(recordFile(place, airframe), airframe));
  const [first, other] = new Set(airframes);
  if (other !== undefined && first !== undefined && recordFile(place, first) === recordFile(place, other))
    problems.add(
      fileProblem(place, `one file holds one model, and these are "${first}" and "${other}"; name a folder`),
    );
  problems.throwIfAny();
}

async function checkOwner(file: string, airframe: string): Promise<void> {
  checkOutput(dirname(file), { names: [basename(file)] });
  if (!isFile(file)) return;
  refuseOthers(file, ["trend"], EXPECTED);
  const { airframe: owner, problems } = await readRecords(file);
  if (owner === null && problems.length > 0)
    throw new InputError([fileProblem(file, `holds no record that can be read; expected ${EXPECTED}`)]);
  if (owner !== null && owner !== airframe)
    throw new InputError([
      fileProblem(file, `holds records of "${owner}", not of "${airframe}"; name a folder or another file`),
    ]);
}

/** A record that was written, or was there already. */
export interface Recorded {
  readonly file: string;
  readonly added: boolean;
}

/** Adds the map's record to its model's file. Throws NotWritten where the system refuses. */
export async function writeRecord(map: StabilityMap, place: string, date: string): Promise<Recorded> {
  const record = recordOf(map, date);
  const file = recordFile(place, record.airframe.name);
  const isThere = async () =>
    isFile(file) && (await readRecords(file)).records.some(({ seal }) => seal === record.seal);
  return { file, added: await appendLine(file, canonicalJson(record), isThere) };
}
