// Where the margin ends as P rises: up to there a safe tune may be turned up, from there to the sustained boundary the
// oscillation still dies out, but later and later.
import { at } from "../base/at.js";
import type { AxisMap } from "./format.js";
import type { WantedMargins } from "./wanted-margins.js";

export interface MarginEnd {
  readonly d: number;
  readonly p: number;
  /** Which of the two is met first. */
  readonly by: "gain" | "phase";
}

type Side = MarginEnd["by"];
const SIDES: readonly Side[] = Object.freeze(["gain", "phase"]);

/** dB or deg above what is wanted; infinite where no rise destabilises, below nothing where the oscillation stands. */
function spare({ verdict, margins }: AxisMap, wanted: WantedMargins, side: Side, i: number, j: number): number {
  if (verdict[i]?.[j] === "sustained") return Number.NEGATIVE_INFINITY;
  const value = side === "gain" ? margins.gainUp[i]?.[j] : margins.phase[i]?.[j];
  return value == null ? Number.POSITIVE_INFINITY : value - wanted[side];
}

const isKept = (axis: AxisMap, wanted: WantedMargins, i: number, j: number): boolean =>
  SIDES.every((side) => spare(axis, wanted, side, i, j) >= 0);

/** Share of the way to the next P at which the side's spare margin is used up; half of it where an end has no number. */
function shareOfWay(from: number, to: number): number {
  return Number.isFinite(from) && Number.isFinite(to) ? from / (from - to) : 0.5;
}

/**
 * Per swept D the end of the lowest P range that keeps both margins, by straight lines between the swept P; no entry where
 * no P keeps them, or where the swept range ends first.
 */
export function marginEnds(axis: AxisMap, wanted: WantedMargins): MarginEnd[] {
  const { d, p } = axis.grid;
  return d.flatMap((row, i) => {
    const first = p.findIndex((_, j) => isKept(axis, wanted, i, j));
    const after = p.findIndex((_, j) => j > first && !isKept(axis, wanted, i, j));
    if (first < 0 || after < 0) return [];
    const [low, high] = [at(p, after - 1), at(p, after)];
    const crossings = SIDES.flatMap((by) => {
      const [from, to] = [spare(axis, wanted, by, i, after - 1), spare(axis, wanted, by, i, after)];
      return to >= 0 ? [] : [{ by, share: shareOfWay(from, to) }];
    });
    const { by, share } = crossings.reduce((least, one) => (one.share < least.share ? one : least));
    return [{ d: row, p: low + share * (high - low), by }];
  });
}

const LIMITS: Readonly<Record<string, Side>> = { "gain margin": "gain", "phase margin": "phase" };

/**
 * The end at the starting tune's D, at the lowest D where there is none. What the start's own room says counts before the
 * grid; null where the margin does not end in the swept range, or nothing has it.
 */
export function marginEndOf(axis: AxisMap, wanted: WantedMargins): MarginEnd | null {
  const { start, grid } = axis;
  const ends = marginEnds(axis, wanted);
  if (start === null) return ends.find(({ d }) => d === grid.d[0]) ?? null;
  const { limit, factor } = start.room.pUp;
  const by = LIMITS[limit];
  if (by !== undefined && factor !== null) return { d: start.d, p: start.p * factor, by };
  const after = grid.d.findIndex((d) => d >= start.d);
  const [left, right] = [grid.d[Math.max(0, after - 1)], grid.d[after]].map((row) => ends.find(({ d }) => d === row));
  if (left === undefined || right === undefined) return null;
  const share = right.d === left.d ? 0 : (start.d - left.d) / (right.d - left.d);
  const p = left.p + share * (right.p - left.p);
  return p > start.p ? { d: start.d, p, by: share < 0.5 ? left.by : right.by } : null;
}
