// What is wrong with an input, where, and what to do: the one form every message about a file takes.

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

const MOST = 50; // problems told at once
const LONGEST = 400; // characters of a message: whoever quotes a file quotes no more of it

/** Bad input: every problem found, by file and line. The only error a user's file can cause. */
export class InputError extends Error {
  override readonly name = "InputError";
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    const files = [...new Set(problems.map((problem) => problem.file))];
    const order = (p: Problem): number => files.indexOf(p.file);
    const sorted = [...problems].sort((a, b) => order(a) - order(b) || a.line - b.line || a.column - b.column);
    const told = sorted.slice(0, MOST).map(problemLine);
    super([...told, ...(sorted.length > MOST ? [`and ${sorted.length - MOST} more problems`] : [])].join("\n"));
    this.problems = Object.freeze(sorted);
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
  const told = plain(message);
  const short = told.length > LONGEST ? `${told.slice(0, LONGEST)}...` : told;
  return `${plain(path === "" ? place : `${place} ${path}`)}: ${short}`;
}

/** A path as people write it. */
export const pathText = (path: Path): string =>
  path.map((part, at) => (typeof part === "number" ? `[${part}]` : `${at > 0 ? "." : ""}${shortened(part)}`)).join("");

/** Control characters, line separators and direction marks as \u{..}: text from files is data on a terminal. */
export const plain = (text: string): string =>
  text.replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/gu, escaped);

/** A text from a file, short enough to stand in a message. */
export const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}...` : text);

const escaped = (character: string): string => `\\u{${(character.codePointAt(0) ?? 0).toString(16)}}`;
