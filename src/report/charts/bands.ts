// A measure as a landscape: closed outlines of all points at or above each level, linear between grid points.
import type { Point } from "./frame.js";
import type { Field } from "./levels.js";
import { type Crossing, rings } from "./rings.js";

interface Lattice {
  readonly d: readonly number[];
  readonly p: readonly number[];
}

export interface Bands {
  /** Where the measure is there at all. */
  readonly known: Point[][];
  readonly atLeast: readonly { readonly level: number; readonly rings: Point[][] }[];
}

export function bandsOf(lattice: Lattice, field: Field, levels: readonly number[]): Bands {
  const value = (i: number, j: number) => field[i]?.[j] ?? null;
  const at = (level: number) =>
    rings(lattice, (i, j) => (value(i, j) ?? Number.NEGATIVE_INFINITY) >= level, levelCrossing(value, level));
  return {
    known: rings(
      lattice,
      (i, j) => value(i, j) !== null,
      () => HALF_WAY,
    ),
    atLeast: levels.map((level) => ({ level, rings: at(level) })),
  };
}

const HALF_WAY = 0.5;

const levelCrossing =
  (value: (i: number, j: number) => number | null, level: number): Crossing =>
  (i, j, along) => {
    const from = value(i, j);
    const to = along === "d" ? value(i + 1, j) : value(i, j + 1);
    const between = from !== null && to !== null && Number.isFinite(from) && Number.isFinite(to);
    return between ? (level - from) / (to - from) : HALF_WAY;
  };

/** Tint of the ground above `passed` of `count` levels: the whole ramp, however few the levels. */
export const tintAt = (passed: number, count: number): number =>
  count === 0 ? 0 : Math.round((passed * LAST_TINT) / count);

const LAST_TINT = 6;
