// The draws of two maps, pair by pair. A number that is written alike in both versions has the same value in draw k of both,
// so what it might be cancels out of their drift; a number that differs is drawn on each side for itself, and one that goes
// together with others is the same where all of those, and how they go together, are.
import { chanceOfPairs } from "../base/binomial-interval.js";
import { type ToleranceInterval, toleranceInterval } from "../base/tolerance-interval.js";
import type { DrawOfAxis } from "../map/confidence-format.js";
import { roundToTwelveDigits } from "../map/display-units.js";
import type { StabilityMap } from "../map/format.js";
import type { Axis, ShiftInterval, StartInDraws } from "./format.js";
import { numbersApart } from "./numbers-apart.js";
import { change, type Intervals } from "./shift.js";

export type DrawPair = readonly [base: DrawOfAxis, candidate: DrawOfAxis];

/** Null where a side has no draws, or the two have not as many. */
export function pairedDraws(axis: Axis, base: StabilityMap, candidate: StabilityMap): DrawPair[] | null {
  const [before, after] = [base.uncertainty?.draws ?? [], candidate.uncertainty?.draws ?? []];
  if (before.length === 0 || before.length !== after.length) return null;
  return before.flatMap((one, k): DrawPair[] => {
    const other = after[k];
    return other === undefined ? [] : [[one[axis], other[axis]]];
  });
}

/** Digits of a boundary in a draw: as many as a baseline has, so that it gives the same intervals as its map. */
const DIGITS = 5;

export const toBaselineDigits = (p: number | null): number | null =>
  p === null ? null : Number(p.toPrecision(DIGITS));

/** Per D, between which changes of the boundary 90 of 100 pairs lie. */
export function shiftIntervals(pairs: readonly DrawPair[]): Intervals {
  const rows = pairs[0]?.[0].boundary ?? [];
  return rows.map((_, row) => {
    const interval = toleranceInterval(pairs.map(([base, candidate]) => changeAt(row, base, candidate)));
    return interval === null ? null : rounded(interval);
  });
}

/** Null where a draw has no boundary up to far above the grid. */
function changeAt(row: number, base: DrawOfAxis, candidate: DrawOfAxis): number | null {
  const [from, to] = [base, candidate].map(({ boundary }) => toBaselineDigits(boundary[row] ?? null));
  if (from == null || to == null) return null;
  const percent = change(from, to);
  return Number.isFinite(percent) ? percent : null; // only in a file made by hand
}

const rounded = ({ low, middle, high }: ToleranceInterval): ShiftInterval => ({
  low: roundToTwelveDigits(low),
  middle: roundToTwelveDigits(middle),
  high: roundToTwelveDigits(high),
});

/** Null where a side has no starting tune. */
export function startInDraws(
  axis: Axis,
  base: StabilityMap,
  candidate: StabilityMap,
  pairs: readonly DrawPair[],
): StartInDraws | null {
  if (base.axes[axis].start === null || candidate.axes[axis].start === null) return null;
  const safe = pairs.map(([before, after]) => [before.startFailsBy === null, after.startFailsBy === null] as const);
  const count = (was: boolean, is: boolean) => safe.filter(([before, after]) => before === was && after === is).length;
  const [both, lost, gained] = [count(true, true), count(true, false), count(false, true)];
  const chance = Number(chanceOfPairs(lost, gained).toPrecision(6));
  return { of: pairs.length, before: both + lost, after: both + gained, lost, gained, chance };
}

/** What a reader must know of the pairs; nothing where neither side has draws. */
export function drawNotes(before: StabilityMap, after: StabilityMap): string[] {
  const [base, candidate] = [before.uncertainty, after.uncertainty];
  if (base === undefined && candidate === undefined) return [];
  if (base === undefined || candidate === undefined)
    return [`No drift has an interval: the ${base === undefined ? "base" : "candidate"} holds no draws.`];
  if (base.draws.length !== candidate.draws.length)
    return [`No drift has an interval: ${base.draws.length} draws before, ${candidate.draws.length} now.`];
  const apart = numbersApart(before, after);
  const named = (keys: readonly string[]) => (keys.length === 0 ? "none" : keys.join(", "));
  const together =
    apart.together.length === 0
      ? ""
      : ` Drawn partly apart, since numbers that go together with them differ, or how they do: ${named(apart.together)}.`;
  return [
    `Intervals hold 90 of 100 of ${base.draws.length} pairs of draws. Drawn on each side for itself, since it differs: ${named(apart.own)}.${together}`,
  ];
}
