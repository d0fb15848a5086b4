// The rows of a log as they come: numbers in SI, and what of them cannot be read. What makes a log useless is an InputError.
import { at } from "../base/at.js";
import { type Document, problemAt } from "../base/document.js";
import { suggestion } from "../base/nearest.js";
import { fileProblem, InputError, type Path, type Problem, shortened } from "../base/problem.js";
import { type Channel, channelsOf } from "./channels.js";
import type { Column, LogDeclaration } from "./flight.js";
import { GrowingNumbers } from "./growing.js";
import { counted, grouped, Tally } from "./tally.js";

/** Numbers that one log may hold: 800 MB of them. */
const MOST_NUMBERS = 1e8;

/** What was read: rows whose time is a number, in the file's order. */
export interface LogRows {
  /** As the column has it, in its own unit. */
  readonly time: Float64Array;
  /** Line of a row. */
  readonly line: (row: number) => number;
  /** By `channelsOf`, SI, NaN where missing. */
  readonly channels: readonly Float64Array[];
  /** Rows that were left out, by what is wrong with them. */
  readonly broken: { readonly rows: number; readonly line: number; readonly fields: number; readonly names: number };
  readonly timeless: { readonly rows: number; readonly line: number; readonly found: string };
  /** By channel. */
  readonly missing: readonly Missing[];
}

export interface Missing {
  readonly empty: number;
  readonly emptyLine: number;
  readonly wrong: number;
  readonly wrongLine: number;
  readonly found: string;
}

/** Takes the rows of one log file; a sink for `files/rows`. */
export class LogReader {
  readonly #file: string;
  readonly #declaration: LogDeclaration;
  readonly #document: Document;
  readonly #channels: readonly Channel[];
  readonly #time = new GrowingNumbers();
  readonly #line = new Lines();
  readonly #numbers: readonly GrowingNumbers[];
  readonly #empty: readonly Tally[];
  readonly #wrong: readonly Tally[];
  readonly #found: string[];
  readonly #broken = new Tally();
  readonly #timeless = new Tally();
  #brokenFields = 0;
  #timelessFound = "";
  #names = 0;
  #timeAt = 0;
  #places: number[] = [];

  /** `document` is the flight file: a column that the log lacks is a fault of the line that names it. */
  constructor(file: string, declaration: LogDeclaration, document: Document) {
    this.#file = file;
    this.#declaration = declaration;
    this.#document = document;
    this.#channels = channelsOf(declaration);
    this.#numbers = this.#channels.map(() => new GrowingNumbers());
    this.#empty = this.#channels.map(() => new Tally());
    this.#wrong = this.#channels.map(() => new Tally());
    this.#found = this.#channels.map(() => "");
  }

  names(names: readonly string[], line: number): void {
    if (names.every((name) => name !== "" && Number.isFinite(Number(name))))
      throw this.#refuse(line, "numbers, where the first line holds the names of the columns");
    const problems: Problem[] = [];
    const placeOf = ({ name, path }: Column): number => {
      const problem = placeFault(name, names, this.#file);
      if (problem !== null) problems.push(problemAt(this.#document, [...path, "column"] as Path, problem));
      return names.indexOf(name);
    };
    this.#timeAt = placeOf(this.#declaration.time);
    this.#places = this.#channels.map(({ column }) => placeOf(column));
    if (problems.length > 0) throw new InputError(problems);
    this.#names = names.length;
  }

  row(fields: readonly string[], line: number): void {
    if (fields.length !== this.#names) {
      if (this.#broken.count === 0) this.#brokenFields = fields.length;
      this.#broken.add(line);
      return;
    }
    const text = fields[this.#timeAt] ?? "";
    const time = numberIn(text);
    if (Number.isNaN(time)) {
      this.#refuseComma(text, this.#declaration.time, line);
      if (this.#timeless.count === 0) this.#timelessFound = text;
      this.#timeless.add(line);
      return;
    }
    this.#time.push(time);
    this.#line.push(line);
    for (let c = 0; c < this.#places.length; c++) this.#take(fields[this.#places[c] ?? 0] ?? "", c, line);
    if (this.#time.length * (this.#places.length + 2) > MOST_NUMBERS)
      throw this.#refuse(
        line,
        `more than ${grouped(this.#time.length - 1)} rows of ${counted(this.#places.length + 1, "column")}; cut the log to the part that is used`,
      );
  }

  #take(text: string, c: number, line: number): void {
    const { zero, scale } = at(this.#channels, c).column;
    const written = numberIn(text);
    at(this.#numbers, c).push((written - zero) * scale);
    if (!Number.isNaN(written)) return;
    if (text !== "") {
      this.#refuseComma(text, at(this.#channels, c).column, line);
      if (at(this.#wrong, c).count === 0) this.#found[c] = text;
    }
    at(text === "" ? this.#empty : this.#wrong, c).add(line);
  }

  /** A decimal comma stands in every row: it is a setting of whoever wrote the log, not a broken row. */
  #refuseComma(text: string, { name }: Column, line: number): void {
    if (/^[+-]?\d+,\d+$/.test(text))
      throw this.#refuse(
        line,
        `"${text}" in column ${shortened(name)} has a decimal comma, expected numbers with a point: export the log anew`,
      );
  }

  /** All rows. InputError where too few of them can be read. */
  taken(): LogRows {
    const rows = this.#time.length;
    const left = this.#broken.count + this.#timeless.count;
    if (rows + left === 0) throw new InputError([fileProblem(this.#file, "holds names of columns and no row")]);
    if (left > rows) throw this.#tooMany();
    const ofTally = ({ count, first }: Tally) => ({ rows: count, line: first });
    return {
      time: this.#time.taken(),
      line: (row) => this.#line.of(row),
      channels: this.#numbers.map((numbers) => numbers.taken()),
      broken: { ...ofTally(this.#broken), fields: this.#brokenFields, names: this.#names },
      timeless: { ...ofTally(this.#timeless), found: this.#timelessFound },
      missing: this.#channels.map((_, c) => ({
        empty: at(this.#empty, c).count,
        emptyLine: at(this.#empty, c).first,
        wrong: at(this.#wrong, c).count,
        wrongLine: at(this.#wrong, c).first,
        found: at(this.#found, c),
      })),
    };
  }

  #tooMany(): InputError {
    const { count, first } = this.#broken;
    const many = this.#time.length + count + this.#timeless.count;
    if (count < this.#timeless.count) {
      const found = `"${shortened(this.#timelessFound)}" in column ${shortened(this.#declaration.time.name)}`;
      return this.#refuse(
        this.#timeless.first,
        `${found} is not a number; ${grouped(this.#timeless.count)} of ${counted(many, "row")} have no time`,
      );
    }
    const commas =
      this.#brokenFields > this.#names ? "; are numbers written with a decimal comma? A point is read" : "";
    return this.#refuse(
      first,
      `${counted(this.#brokenFields, "field")} where the first line names ${counted(this.#names, "column")}, as in ${grouped(count)} of ${counted(many, "row")}${commas}`,
    );
  }

  readonly #refuse = (line: number, message: string): InputError =>
    new InputError([{ ...fileProblem(this.#file, message), line, column: 1 }]);
}

/** Lines of rows, most of which stand one below the other. */
class Lines {
  /** Where they do not: rows and their lines. */
  readonly #rows = new GrowingNumbers();
  readonly #lines = new GrowingNumbers();
  #count = 0;
  #next = -1;

  push(line: number): void {
    if (line !== this.#next) {
      this.#rows.push(this.#count);
      this.#lines.push(line);
    }
    this.#count++;
    this.#next = line + 1;
  }

  of(row: number): number {
    let [low, high] = [0, this.#rows.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#rows.at(middle) <= row) low = middle;
      else high = middle - 1;
    }
    return this.#lines.at(low) + row - this.#rows.at(low);
  }
}

/** Why a name does not say which column is meant; null where it does. */
function placeFault(name: string, names: readonly string[], file: string): string | null {
  const found = names.filter((one) => one === name).length;
  if (found === 1) return null;
  if (found > 1) return `${file} has ${found} columns of that name, expected one`;
  const one = names.length === 1 ? "; its first line is one name: say which delimiter it has" : "";
  return `${file} has no such column${suggestion(name, names)}${one}`;
}

/** NaN where it is no decimal number. */
function numberIn(text: string): number {
  if (text === "") return Number.NaN;
  const value = Number(text);
  // Number also reads 0x1f, 0b1 and 0o7, and Infinity
  const foreign = text.length > 1 && text.charCodeAt(0) === 48 && text.charCodeAt(1) > 57 && !/^0e/i.test(text);
  return Number.isFinite(value) && !foreign ? value : Number.NaN;
}
