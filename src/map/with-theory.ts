// Theory limits the boundary too: where trials miss an oscillation that theory predicts, by more than a small tolerance, the
// lower boundary counts. Oscillations too slow for any script, and levels at which no script moves the axis, are judged by
// theory in this way.
import { at } from "../base/at.js";
import { P_UNIT } from "../base/units.js";
import { type RowBoundary, usefulRange, type WorstInterval } from "./boundary.js";
import { byTheory, NOBODY } from "./decider.js";
import type { TheoryLoop } from "./theory-format.js";

/** Factor in P by which trials may lie beyond theory and still count. Ours, no source. */
const BEYOND = 1.05;

/** The linear loop at one throttle level and condition. */
export interface TheoryRanges {
  /** The first variant that is simulated there. */
  readonly variant: number;
  /** Per D the stable P ranges in display units; null: the edge of the swept range. */
  readonly perD: TheoryLoop["perD"];
  /** Whether any trial there moved the axis; where none did, theory alone decides. */
  readonly tried: boolean;
}

/** The range that counts at D index `row`, of the ranges in which every trial dies out, limited by theory. */
export function withTheory(
  tried: readonly WorstInterval[],
  loops: readonly TheoryRanges[],
  row: number,
  firstToEnd: number,
): RowBoundary {
  let left = tried;
  let last = firstToEnd;
  for (const loop of loops) {
    if (left.length === 0) break;
    left = left.flatMap((range) => at(loop.perD, row).flatMap((stable) => clipped(range, stable, loop)));
    last = byTheory(loop.variant);
  }
  return usefulRange(left) ?? { never: last };
}

function clipped(
  range: WorstInterval,
  [low, high]: readonly [number | null, number | null],
  { variant, tried }: TheoryRanges,
): WorstInterval[] {
  const beyond = tried ? BEYOND : 1;
  const [from, to] = [low === null ? null : low * P_UNIT, high === null ? null : high * P_UNIT];
  const by = byTheory(variant);
  const next = {
    ...range,
    ...(to !== null && range.to > to * beyond ? { to, toOpen: false, toBy: by } : {}),
    ...(from !== null && range.from < from / beyond ? { from, fromOpen: false, fromBy: by } : {}),
  };
  return next.from < next.to ? [next] : [];
}

/** At a P where every trial dies out: theory's code if theory finds it unstable, else NOBODY. */
export function theoryDecider(boundary: RowBoundary, loops: readonly TheoryRanges[], row: number, p: number): number {
  if (!("never" in boundary) && [boundary, ...(boundary.others ?? [])].some((range) => holds(range, p))) return NOBODY;
  const objecting = loops.filter(({ perD }) => !at(perD, row).some((stable) => within(stable, p / P_UNIT)));
  const [first] = objecting.sort((a, b) => endOf(a, row) - endOf(b, row));
  return first === undefined ? NOBODY : byTheory(first.variant);
}

/** P at which the loop's lowest stable range ends. */
const endOf = ({ perD }: TheoryRanges, row: number): number => {
  const [lowest] = at(perD, row);
  return lowest === undefined ? 0 : (lowest[1] ?? Number.MAX_VALUE);
};

/** Whether a P at which trials die out lies so far beyond theory's stable ranges (display units) that theory counts. */
export const isFarBeyond = (stable: TheoryLoop["perD"][number], p: number, tried: boolean): boolean =>
  !stable.some(([low, high]) => {
    const beyond = tried ? BEYOND : 1;
    return (low === null || p >= low / beyond) && (high === null || p <= high * beyond);
  });

const holds = ({ from, to, fromOpen, toOpen }: WorstInterval, p: number): boolean =>
  (fromOpen || p >= from) && (toOpen || p <= to);

export const within = ([low, high]: readonly [number | null, number | null], p: number): boolean =>
  (low === null || p >= low) && (high === null || p <= high);
