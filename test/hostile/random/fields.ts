// Tables of numbers as maps may hold them, drawn from a seed: flat, stepped, all missing, and time and again exactly on
// a level of a contour, on a limit or on a line of the grid.
import { MEASURES, type MeasureId } from "../../../src/base/measures.js";
import { stream } from "../../../src/base/random.js";
import type { Grid } from "../../../src/map/format.js";

export interface Draw {
  /** Evenly from 0 up to 1, 1 left out. */
  readonly share: () => number;
  readonly between: (from: number, to: number) => number;
  /** A whole number, both ends included. */
  readonly integer: (from: number, to: number) => number;
  readonly chance: (share: number) => boolean;
  readonly pick: <T>(...list: readonly T[]) => T;
}

export function drawsOf(...key: readonly (string | number)[]): Draw {
  const source = stream(...(key as [string]));
  const share = () => source.next() / 2 ** 32;
  const integer = (from: number, to: number) => from + Math.floor(share() * (to - from + 1));
  return {
    share,
    between: (from, to) => from + (to - from) * share(),
    integer,
    chance: (probability) => share() < probability,
    pick: (...list) => list[integer(0, list.length - 1)] as (typeof list)[number],
  };
}

export const tableOf = <T>(rows: number, columns: number, at: (i: number, j: number) => T): Grid<T> =>
  Array.from({ length: rows }, (_, i) => Array.from({ length: columns }, (__, j) => at(i, j)));

/** A table of one value in many of its guises; `likely` are the values that mean something: levels and limits. */
export function fieldOf(draw: Draw, rows: number, columns: number, likely: readonly number[]): Grid<number | null> {
  const near = () => draw.pick(...likely) + draw.pick(0, 0, 0, -0.25, 0.25);
  const [base, other] = [near(), near()];
  const [across, up, step] = [draw.between(-1, 1), draw.between(-1, 1), draw.pick(0.25, 1)];
  const missing = draw.pick(0, 0, 0.2, 0.9);
  const [row, column] = [draw.integer(0, rows - 1), draw.integer(0, columns - 1)];
  const at = draw.pick<(i: number, j: number) => number | null>(
    () => null,
    () => base,
    () => draw.pick(base, other, null),
    () => near(),
    () => base * draw.between(0, 2),
    (i, j) => step * Math.round((base * (1 + across * (i - row) + up * (j - column))) / step),
    (i, j) => (i === row && j === column ? base : base - Math.abs(other) - 0.5),
    (i) => (i === row ? base : other),
  );
  return tableOf(rows, columns, (i, j) => (draw.chance(missing) ? null : at(i, j)));
}

/** Values of a measure that fall on a level, or next to one. */
export function likelyValues(id: MeasureId): number[] {
  const limit = MEASURES.find((one) => one.id === id)?.limit ?? 20;
  const power = 10 ** Math.floor(Math.log10(limit));
  return [0, limit, limit / 2, 2 * limit, ...[1, 1.5, 2, 3, 4, 5, 7, 10].map((digit) => digit * power)];
}
