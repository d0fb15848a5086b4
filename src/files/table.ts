// A table as programs for benches and spreadsheets export it: CSV with one line of column names.
import { CsvError, parse } from "csv-parse/sync";
import { fileProblem, InputError, type Problem } from "../base/problem.js";
import { readText } from "./read.js";

export interface Table {
  readonly file: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** A problem with a cell; row -1 is that of the names. */
  problem(row: number, column: number, message: string): Problem;
}

interface Record {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

/** The table in a file, separated by commas, semicolons or tabs; InputError where there is none. */
export function readTable(path: string): Table {
  const text = readText(path, "a CSV file").replace(/^\ufeff/, "");
  const [head = ""] = text.split(/\r?\n/, 1);
  const delimiter = [";", "\t"].find((one) => head.includes(one)) ?? ",";
  const [names, ...rows] = parsed(path, text, delimiter);
  if (names === undefined) throw new InputError([fileProblem(path, "holds no line of column names")]);
  const lines = text.split(/\r?\n/);
  const problem = (row: number, column: number, message: string): Problem => {
    const line = (row === -1 ? names : rows[row])?.info.lines ?? 1;
    const name = names.record[column] ?? "";
    const before = (lines[line - 1] ?? "").split(delimiter).slice(0, column).join(delimiter);
    return { file: path, line, column: before.length + (column === 0 ? 1 : 2), path: row === -1 ? "" : name, message };
  };
  return { file: path, columns: names.record, rows: rows.map(({ record }) => record), problem };
}

function parsed(path: string, text: string, delimiter: string): Record[] {
  try {
    return parse(text, { delimiter, trim: true, skip_empty_lines: true, info: true }) as unknown as Record[];
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = Number((error as { readonly lines?: number }).lines ?? 0);
    const [message = ""] = error.message.split("\n");
    throw new InputError([
      { ...fileProblem(path, `not CSV that can be read: ${message}`), line, column: line > 0 ? 1 : 0 },
    ]);
  }
}
