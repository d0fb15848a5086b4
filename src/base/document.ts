// A file that was read: plain data, with the line and column of each value.
import { type Path, type Problem, pathText } from "./problem.js";

export interface Place {
  readonly line: number; // from 1
  readonly column: number; // from 1
}

export interface Document {
  readonly file: string;
  /** Plain data: texts, numbers, booleans, null, lists and groups of keys. Unchecked. */
  readonly data: unknown;
  /** Where the value at a path stands, or the last key of the path; the nearest enclosing value where it is absent. */
  place(path: Path, of?: "value" | "key"): Place;
}

/** A problem with the value (or key) at a path of a document. */
export function problemAt(document: Document, path: Path, message: string, of: "value" | "key" = "value"): Problem {
  return { file: document.file, ...document.place(path, of), path: pathText(path), message };
}
