// How far the end of the stable P range moved at each D: the shift of the sustained boundary.

import { at } from "../base/at.js";
import { roundToTwelveDigits } from "../map/display-units.js";
import type { BoundaryPoint } from "../map/format.js";
import type { Extreme, ShiftAtD, ShiftInterval, ShiftLine, ShiftState } from "./format.js";

/** A stable P range; null: beyond the grid. */
type Range = readonly [from: number | null, to: number | null];

/** Upper end of the stable P range that counts at one D. */
export interface End {
  readonly d: number;
  /** P of the end; null: beyond the grid, or nothing is stable. */
  readonly p: number | null;
  readonly stable: boolean;
  /** Every stable range at this D, the one that counts first; left out where the others are unknown. */
  readonly ranges?: readonly Range[];
}

export const endOf = ({ d, p, reason, from, otherRanges = [] }: BoundaryPoint): End => ({
  d,
  p,
  stable: reason !== "always",
  ...(reason === "always" ? {} : { ranges: [[from ?? null, p] as const, ...otherRanges] }),
});

/** Per D of the grid, where one is known. */
export type Intervals = readonly (ShiftInterval | null)[];

/** Shift from `base` to `candidate`, D by D; `top` is the highest P of the grid. */
export function shiftLine(
  base: readonly End[],
  candidate: readonly End[],
  top: number,
  intervals: Intervals = [],
): ShiftLine {
  const perD = base.map((end, row) => shiftAt(end, at(candidate, row), top, intervals[row] ?? null));
  const shifts = perD.flatMap(({ d, percent, interval }): Extreme[] =>
    percent === null ? [] : [{ d, percent, ...(interval === undefined ? {} : { interval }) }],
  );
  const extreme = (better: (a: number, b: number) => boolean): Extreme | null =>
    shifts.reduce<Extreme | null>(
      (best, one) => (best === null || better(one.percent, best.percent) ? one : best),
      null,
    );
  return { perD, lowest: extreme((a, b) => a < b), highest: extreme((a, b) => a > b) };
}

/** The candidate's end of the ground that counted on the base's side: another range does not count, however wide. */
function sameGround({ ranges: [counts] = [] }: End, candidate: End, top: number): End {
  if (counts === undefined || candidate.ranges === undefined) return candidate;
  const shared = ([from, to]: Range): number =>
    Math.min(to ?? top, counts[1] ?? top) - Math.max(from ?? 0, counts[0] ?? 0);
  const [first] = [...candidate.ranges].sort((a, b) => shared(b) - shared(a));
  if (first === undefined || !(shared(first) > 0)) return { ...candidate, p: null, stable: false };
  return { ...candidate, p: first[1] };
}

function shiftAt(base: End, other: End, top: number, interval: ShiftInterval | null): ShiftAtD {
  const candidate = sameGround(base, other, top);
  const [state, percent] = stateOf(base, candidate, top);
  // Draws know the end of the range that counts on each side; one beyond the grid is known to them by theory alone.
  const known = interval !== null && state === "moved" && candidate.p === other.p;
  return { d: base.d, base: base.p, candidate: candidate.p, state, percent, ...(known ? { interval } : {}) };
}

function stateOf(base: End, candidate: End, top: number): readonly [ShiftState, number | null] {
  if (!base.stable && !candidate.stable) return ["never stable", null];
  if (!base.stable) return ["opened", null];
  if (!candidate.stable) return ["closed", -100];
  if (base.p === null && candidate.p === null) return ["beyond the grid", null];
  // An end beyond the grid lies at its top or higher: the true shift is at least as large as the one reported.
  if (base.p === null) return ["into the grid", change(top, candidate.p as number)];
  if (candidate.p === null) return ["out of the grid", change(base.p, top)];
  return ["moved", change(base.p, candidate.p)];
}

/** Change in % of the first; exactly 0 for equal numbers. */
export const change = (from: number, to: number): number => roundToTwelveDigits((100 * (to - from)) / from);
