// The values of a model's numbers, draw by draw. Each number has a Latin hypercube column of its own; of numbers that go
// together the columns' scores are joined by the factor of their correlations (a Gaussian copula), so that each keeps its own
// law. Reordering the columns instead (R.L. Iman and W.J. Conover 1982) would keep their strata, but draws a tight pair
// apart by as much as a stratum is wide: a ratio known to a tenth of its parts' spreads comes out 1.3 times as wide in 64 draws.
import { at } from "../base/at.js";
import { hypercubeColumn, redrawnInStratum } from "../base/latin-hypercube.js";
import { normalQuantile } from "../base/normal.js";
import { stream, uniform } from "../base/random.js";
import type { Spread } from "../base/spread.js";
import type { Correlation } from "./airframe.js";
import { valueAt, valueAtScore } from "./spread-values.js";
import { factorOf, groupsOf, type Together } from "./together.js";

export interface ColumnOptions {
  readonly count: number;
  readonly seed: number;
  /** Tells one set of draws of a model from another. */
  readonly purpose: string;
}

/** Values as `spreads`, of draw `row` at an attempt. */
export type ValuesOf = (row: number, attempt: number) => number[];

/** Attempts within a stratum, before it counts as lying outside its key's range. */
const PLACES = 50;

export function drawnValues(
  spreads: readonly Spread[],
  correlations: readonly Correlation[],
  options: ColumnOptions,
): ValuesOf {
  const columns = spreads.map((spread) => columnOf(spread, options));
  const groups = groupsOf(spreads, correlations).map((group) => joined(group, spreads, columns));
  const grouped = new Set(groups.flatMap(({ members }) => members));
  const alone = spreads.map((spread, k) => (grouped.has(k) ? null : { spread, column: at(columns, k) }));
  return (row, attempt) => {
    const values = alone.map((one) =>
      one === null ? Number.NaN : placed(one.spread, (place) => valueAt(one.spread, one.column(row, attempt, place))),
    );
    for (const { members, valuesOf } of groups)
      for (const [k, value] of valuesOf(row, attempt).entries()) values[at(members, k)] = value;
    return values;
  };
}

/** The first value that lies in its key's range; none does: the end of the range. */
function placed({ least, most }: Spread, valueAtPlace: (place: number) => number): number {
  for (let place = 0; place < PLACES - 1; place++) {
    const value = valueAtPlace(place);
    if (value >= least && value <= most) return value;
  }
  return Math.min(most, Math.max(least, valueAtPlace(PLACES - 1)));
}

/** A share of craft below; `place` tells one try within the stratum from the next. */
type Column = (row: number, attempt: number, place: number) => number;

/** Seeded by what is written of the number: equal in two versions of a model where that is, and independent where it is not. */
function columnOf({ key, nominal, law, size }: Spread, { count, seed, purpose }: ColumnOptions): Column {
  const keys = [seed, purpose, key, nominal, law, size] as const;
  const column = hypercubeColumn(count, ...keys);
  return (row, attempt, place) => {
    const first = attempt === 0 ? at(column, row) : uniform(stream("again", row, attempt, ...keys));
    return place === 0 ? first : redrawnInStratum(first, count, row, place + attempt * PLACES, ...keys);
  };
}

interface Joined extends Pick<Together, "members"> {
  readonly valuesOf: ValuesOf;
}

/** Each number after those before it: a try outside its range is made again with the same others. */
function joined(group: Together, spreads: readonly Spread[], columns: readonly Column[]): Joined {
  const factor = factorOf(group.matrix).to2DArray();
  const valuesOf: ValuesOf = (row, attempt) => {
    const scores: number[] = [];
    return group.members.map((member, k) => {
      const weights = at(factor, k);
      const others = scores.reduce((sum, score, j) => sum + at(weights, j) * score, 0);
      return placed(at(spreads, member), (place) => {
        scores[k] = normalQuantile(at(columns, member)(row, attempt, place));
        return valueAtScore(at(spreads, member), others + at(weights, k) * at(scores, k));
      });
    });
  };
  return { members: group.members, valuesOf };
}
