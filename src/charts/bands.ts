// A measure as a landscape: closed outlines of all points at or above each level, linear between grid points.
import { cutWhere, outside } from "./clip.js";
import type { Frame, Point, Polyline } from "./frame.js";
import type { Field } from "./levels.js";
import { type Crossing, rings } from "./rings.js";
import { innerOutline } from "./terrain.js";

interface Lattice {
  readonly d: readonly number[];
  readonly p: readonly number[];
}

export interface Bands {
  /** Where the measure has a value at all. */
  readonly defined: Point[][];
  readonly atLeast: readonly { readonly level: number; readonly rings: Point[][] }[];
}

export function bandsOf(lattice: Lattice, field: Field, levels: readonly number[]): Bands {
  const value = (i: number, j: number) => field[i]?.[j] ?? null;
  const at = (level: number) =>
    rings(lattice, (i, j) => (value(i, j) ?? Number.NEGATIVE_INFINITY) >= level, levelCrossing(value, level));
  return {
    defined: rings(
      lattice,
      (i, j) => value(i, j) !== null,
      () => HALF_WAY,
    ),
    atLeast: levels.map((level) => ({ level, rings: at(level) })),
  };
}

/** The contour of one level as it is drawn: an outline also runs along the edge of the defined points, which is no contour. */
export function contourOf(
  { frame, lattice, field }: { readonly frame: Frame; readonly lattice: Lattice; readonly field: Field },
  outline: readonly Polyline[],
  sustained: readonly Polyline[],
): Polyline[] {
  return outside(cutWhere(innerOutline(frame, outline), atRim(lattice, field)), sustained);
}

/** Whether an outline's point lies between a grid point with a value and one without. */
function atRim({ d, p }: Lattice, field: Field): (point: Point) => boolean {
  const defined = (i: number, j: number) => field[i]?.[j] != null;
  return ([x, y]) => {
    const [i, j] = [d.findLastIndex((line) => line <= x), p.findLastIndex((line) => line <= y)];
    const [a, b] = [d[i] === x ? i : i + 1, p[j] === y ? j : j + 1];
    return defined(i, j) !== defined(a, b);
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
