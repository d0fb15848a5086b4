// The rows of a CSV file that may be larger than memory: parsed as they are read, handed over one by one.
import { createReadStream } from "node:fs";
import { Readable, Writable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { CsvError, parse } from "csv-parse";
import { fileProblem, InputError } from "../base/problem.js";
import { errorCode, fileSize } from "./read.js";
import { headOf } from "./search.js";

export interface RowSink {
  /** The first row that is not blank, and its line. May throw InputError, as `row` may: nothing more is read. */
  names(names: readonly string[], line: number): void;
  /** Any other; the line is the one on which it ends. */
  row(fields: readonly string[], line: number): void;
}

const HEAD = 65_536; // bytes
const LONGEST_ROW = 65_536; // characters: a quote that is never closed swallows what follows

/** Hands over every row of a file. InputError where it is no text of rows; `delimiter` null: as the first line has it. */
export async function readRows(path: string, delimiter: string | null, sink: RowSink): Promise<void> {
  const expected = "a CSV file";
  if (fileSize(path, expected) === 0) throw new InputError([fileProblem(path, `is empty, expected ${expected}`)]);
  const head = headOf(path, HEAD);
  if (head.includes("\0"))
    throw new InputError([fileProblem(path, `holds bytes that are no text in UTF-8, expected ${expected}`)]);
  await rowsOf(path, createReadStream(path, { highWaterMark: HEAD }), delimiter ?? delimiterOf(head), sink);
}

/** The mark that stands most often in the first line that is not blank. */
function delimiterOf(head: string): string {
  const line = head.split(/[\r\n]+/).find((one) => one.trim() !== "") ?? "";
  const count = (mark: string): number => line.split(mark).length - 1;
  return [";", "\t"].reduce((best, mark) => (count(mark) > count(best) ? mark : best), ",");
}

/** As `readRows`, of bytes in pieces of any length; `path` stands in messages. */
export async function rowsOf(
  path: string,
  pieces: Readable | Iterable<Uint8Array>,
  delimiter: string,
  sink: RowSink,
): Promise<void> {
  const parser = parse({
    delimiter,
    bom: true,
    trim: true,
    relax_column_count: true,
    relax_quotes: true,
    max_record_size: LONGEST_ROW,
  });
  const counting = new CountedRows(sink);
  const taking = new Writable({
    objectMode: true,
    write: (fields: readonly string[], _encoding, done) => {
      try {
        counting.take(fields);
        done();
      } catch (error) {
        done(error as Error);
      }
    },
  });
  try {
    await pipeline(pieces instanceof Readable ? pieces : Readable.from(pieces, { objectMode: false }), parser, taking);
  } catch (error) {
    throw asProblem(path, error, parser.info.records + 1);
  }
  if (!counting.named)
    throw new InputError([fileProblem(path, "holds no row, expected a line of column names and rows of numbers")]);
}

/** Rows with their lines. The parser tells them too, at the price of an object a row: three times the time of parsing. */
class CountedRows {
  named = false;
  #line = 0;

  constructor(readonly sink: RowSink) {}

  take(fields: readonly string[]): void {
    this.#line++;
    for (const field of fields) if (field.includes("\n")) this.#line += field.split("\n").length - 1;
    if (fields.length === 1 && fields[0] === "") return; // a blank line
    if (this.named) this.sink.row(fields, this.#line);
    else {
      this.named = true;
      this.sink.names(fields, this.#line);
    }
  }
}

/** `next`: line of the row that was being read. */
function asProblem(path: string, error: unknown, next: number): unknown {
  if (error instanceof CsvError) {
    const long = error.code === "CSV_MAX_RECORD_SIZE";
    const line = long ? next : Number((error as { readonly lines?: number }).lines ?? 0);
    const words = error.message.split("\n")[0] ?? "";
    const message = long
      ? `a row of more than ${LONGEST_ROW} characters: is a quote left open?`
      : `not CSV that can be read: ${words}`;
    return new InputError([{ ...fileProblem(path, message), line, column: line > 0 ? 1 : 0 }]);
  }
  if (error instanceof Error && "syscall" in error)
    return new InputError([fileProblem(path, `cannot be read (${errorCode(error)})`)]);
  return error;
}
