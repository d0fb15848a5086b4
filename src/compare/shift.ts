// How far the end of the stable P range moved at each D: the shift of the sustained boundary.
import type { BoundaryPoint } from "../map/format.js";
import { tidy } from "../map/people.js";
import type { Extreme, ShiftAtD, ShiftLine, ShiftState } from "./format.js";

/** Upper end of the lowest stable P range at one D. */
export interface End {
  readonly d: number;
  /** P of the end; null: beyond the grid, or nothing is stable. */
  readonly p: number | null;
  readonly stable: boolean;
}

export const endOf = ({ d, p, reason }: BoundaryPoint): End => ({ d, p, stable: reason !== "always" });

/** Shift from `base` to `candidate`, D by D; `top` is the highest P of the grid. */
export function shiftLine(base: readonly End[], candidate: readonly End[], top: number): ShiftLine {
  const perD = base.map((end, row) => shiftAt(end, candidate[row] as End, top));
  const told = perD.flatMap(({ d, percent }): Extreme[] => (percent === null ? [] : [{ d, percent }]));
  const extreme = (better: (a: number, b: number) => boolean): Extreme | null =>
    told.reduce<Extreme | null>((best, one) => (best === null || better(one.percent, best.percent) ? one : best), null);
  return { perD, lowest: extreme((a, b) => a < b), highest: extreme((a, b) => a > b) };
}

function shiftAt(base: End, candidate: End, top: number): ShiftAtD {
  const [state, percent] = stateOf(base, candidate, top);
  return { d: base.d, base: base.p, candidate: candidate.p, state, percent };
}

function stateOf(base: End, candidate: End, top: number): readonly [ShiftState, number | null] {
  if (!base.stable && !candidate.stable) return ["never stable", null];
  if (!base.stable) return ["opened", null];
  if (!candidate.stable) return ["closed", -100];
  if (base.p === null && candidate.p === null) return ["beyond the grid", null];
  // An end beyond the grid lies at its top or higher: the true shift is at least as large as the one told.
  if (base.p === null) return ["into the grid", change(top, candidate.p as number)];
  if (candidate.p === null) return ["out of the grid", change(base.p, top)];
  return ["moved", change(base.p, candidate.p)];
}

/** Change in % of the first; exactly 0 for equal numbers. */
export const change = (from: number, to: number): number => tidy((100 * (to - from)) / from);
