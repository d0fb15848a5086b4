// Latin hypercube sampling: M.D. McKay, R.J. Beckman and W.J. Conover, Technometrics 21 (1979) 239-245. Each column has a
// value in every one of `count` strata of equal probability, in an order of its own; a column is made from its own keys
// alone, so that another column more or less leaves it as it is.
import { shuffled, stream, uniform } from "./random.js";

/** `count` probabilities between 0 and 1, one in each stratum. `keys` seed the column. */
export function hypercubeColumn(count: number, ...keys: (number | string)[]): number[] {
  const strata = Array.from({ length: count }, (_, k) => k);
  const order = shuffled(strata, stream("order", count, ...keys));
  return order.map((stratum, row) => withinStratum(stratum, count, row, 0, keys));
}

/** Another place in the same stratum as `probability`; `attempt` tells one from the next. */
export function redrawnInStratum(
  probability: number,
  count: number,
  row: number,
  attempt: number,
  ...keys: (number | string)[]
): number {
  return withinStratum(Math.floor(probability * count), count, row, attempt, keys);
}

/** Open at both ends: a quantile at 0 or 1 may be infinite. */
function withinStratum(
  stratum: number,
  count: number,
  row: number,
  attempt: number,
  keys: readonly (number | string)[],
): number {
  const inside = uniform(stream("place", count, row, attempt, ...keys));
  return (stratum + inside + (inside === 0 ? 2 ** -53 : 0)) / count;
}
