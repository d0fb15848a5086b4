// The numbers that a model's correlations name.
import type { Correlation } from "./airframe.js";

export const keysOf = (pairs: readonly Pick<Correlation, "one" | "other">[]): ReadonlySet<string> =>
  new Set(pairs.flatMap(({ one, other }) => [one, other]));
