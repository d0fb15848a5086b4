// What is wrong with an input, where, and what to do: the one form every message about a file takes.
import { escaped } from "./hidden.js";

export interface Problem {
  /** The file as the user named it, or a file it led to. */
  readonly file: string;
  /** From 1; 0 where the file as a whole is meant. */
  readonly line: number;
  readonly column: number;
  /** "propeller.diameter", "rotors[2].at[0]"; empty for the whole file. */
  readonly path: string;
  readonly message: string;
}

export type Path = readonly (string | number)[];

/** Problems of an input that are reported; a reader may stop once there are more. */
export const MOST_PROBLEMS = 50;
const LONGEST = 400; // characters of a message, which may quote a file

/** Bad input: the problems found, by file and line. The only error a user's file can cause. */
export class InputError extends Error {
  override readonly name = "InputError";
  /** At most MOST_PROBLEMS. */
  readonly problems: readonly Problem[];
  /** How many more were met. */
  readonly more: number;

  constructor(problems: readonly Problem[], more = 0) {
    const files = [...new Set(problems.map((problem) => problem.file))];
    const order = (p: Problem): number => files.indexOf(p.file);
    const sorted = [...problems].sort((a, b) => order(a) - order(b) || a.line - b.line || a.column - b.column);
    const first = sorted.slice(0, MOST_PROBLEMS);
    const rest = more + sorted.length - first.length;
    super([...first.map(problemLine), ...(rest > 0 ? [`and at least ${rest} more problems`] : [])].join("\n"));
    this.problems = Object.freeze(first);
    this.more = rest;
  }
}

/** Problems collected over an input: the first are stored, the rest are counted, so that no input fills the memory. */
export class Problems {
  readonly #first: Problem[] = [];
  #more = 0;

  add(problem: Problem): void {
    if (this.#first.length < MOST_PROBLEMS) this.#first.push(problem);
    else this.#more++;
  }

  /** The problems of an error, each as `changed` makes it. */
  take({ problems, more }: InputError, changed: (problem: Problem) => Problem = (problem) => problem): void {
    for (const problem of problems) this.add(changed(problem));
    this.#more += more;
  }

  /** The result of the work, or null with its problems added. */
  attempt<T>(work: () => T, changed?: (problem: Problem) => Problem): T | null {
    try {
      return work();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.take(error, changed);
      return null;
    }
  }

  /** As `attempt`, of work that takes a while. */
  async attemptLater<T>(work: () => Promise<T>): Promise<T | null> {
    try {
      return await work();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.take(error);
      return null;
    }
  }

  /** Throws InputError where there are any. */
  throwIfAny(): void {
    if (this.#first.length > 0) throw new InputError(this.#first, this.#more);
  }
}

/** A problem of a file as a whole. */
export const fileProblem = (file: string, message: string): Problem => ({
  file,
  line: 0,
  column: 0,
  path: "",
  message,
});

/** One line: `models/x.yaml:14:9 propeller.diameter: 5.1 kg is a mass, expected a length (unit: in, mm or m)`. */
export function problemLine({ file, line, column, path, message }: Problem): string {
  const place = line > 0 ? `${file}:${line}:${column}` : file;
  const text = printable(message);
  const short = text.length > LONGEST ? `${text.slice(0, LONGEST)}...` : text;
  return `${printable(path === "" ? place : `${place} ${path}`)}: ${short}`;
}

/** A path as people write it. */
export const pathText = (path: Path): string =>
  path.map((part, at) => (typeof part === "number" ? `[${part}]` : `${at > 0 ? "." : ""}${shortened(part)}`)).join("");

/** A text of one line with what cannot be seen, or could act on a terminal, spelt out: text from files is data. */
export const printable = (text: string): string => escaped(text);

/** A text from a file, short enough to stand in a message. */
export const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}...` : text);
