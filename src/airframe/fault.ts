// What is wrong with a model file, and where.
import type { Path } from "../base/problem.js";

export interface Fault {
  readonly path: Path;
  readonly message: string;
}

/** The first row of a table at which a column does not rise. */
export function notRising(values: readonly number[], path: Path, key: string): Fault[] {
  const at = values.findIndex((value, index) => index > 0 && value <= (values[index - 1] ?? 0));
  return at === -1 ? [] : [{ path: [...path, at, key], message: "expected to rise from row to row" }];
}
