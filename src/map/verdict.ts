// The verdict on one point: the most severe reason that applies, all reasons as a bit set, and the limiting case.
import { MEASURES, type Measure, type MeasureId, VERDICTS, type Verdict } from "../base/measures.js";
import { NOBODY } from "./decider.js";
import { arguesFor, type Surroundings } from "./way-out.js";
import { FAILING, type WorstMeasure, type WorstPoint } from "./worst.js";

export type Limits = Readonly<Record<MeasureId, number | null>>;

export interface Judgement {
  readonly verdict: Verdict;
  /** Bit set over VERDICTS, "clean" never set. */
  readonly reasons: number;
  /** What decided, a code of `decider.ts`: a variant, theory, or NOBODY where clean. */
  readonly decidedBy: number;
}

/** `sustainedBy` is the code of what finds that an oscillation does not die out, or NOBODY. */
export function judge(worst: WorstPoint, sustainedBy: number, limits: Limits, around: Surroundings): Judgement {
  const deciders = new Map<Verdict, number>();
  if (sustainedBy !== NOBODY) deciders.set("sustained", sustainedBy);
  const furthest = new Map<Verdict, number>();
  const beyond = MEASURES.filter((measure) => roomIn(measure, worst, limits) < 0);
  const argued = new Map(beyond.map((measure) => [measure, arguesFor(measure, worst, around)]));
  // Where a trial failed at a measure there is no value to compare: its verdict follows the measures that have one.
  const measured = beyond.filter(({ id }) => worst[id].value !== null).map((measure) => argued.get(measure));
  const measuredVerdict = (["ringing", "loose"] as const).find((candidate) => measured.includes(candidate));
  for (const [measure, own] of argued) {
    const argues = worst[measure.id].value === null ? (measuredVerdict ?? own) : own;
    const room = roomIn(measure, worst, limits);
    if (room >= (furthest.get(argues) ?? 0)) continue;
    furthest.set(argues, room);
    deciders.set(argues, worst[measure.id].variant);
  }
  const verdict = VERDICTS.find((candidate) => deciders.has(candidate)) ?? "clean";
  const reasons = VERDICTS.reduce((bits, candidate, bit) => (deciders.has(candidate) ? bits | (1 << bit) : bits), 0);
  return { verdict, reasons, decidedBy: deciders.get(verdict) ?? NOBODY };
}

/** The judged measure with the least room to its limit; null where none has a limit and is shown. */
export function leastRoom(
  worst: WorstPoint,
  limits: Limits,
): { readonly measure: Measure; readonly room: number } | null {
  const rooms = MEASURES.map((measure) => ({ measure, room: roomIn(measure, worst, limits) }));
  const least = rooms.reduce((one, other) => (other.room < one.room ? other : one));
  return least.room === Number.POSITIVE_INFINITY ? null : least;
}

/** Whether every trial dies out within every limit. */
export const isClean = (worst: WorstPoint, sustainedBy: number, limits: Limits): boolean =>
  sustainedBy === NOBODY && (leastRoom(worst, limits)?.room ?? 0) >= 0;

/** Room to the limit; endless where the measure is never judged, has no limit or is not shown. */
const roomIn = (measure: Measure, worst: WorstPoint, limits: Limits): number =>
  measure.argues === null
    ? Number.POSITIVE_INFINITY
    : (slack(measure, worst[measure.id], limits[measure.id]) ?? Number.POSITIVE_INFINITY);

/**
 * Room to a measure's limit as a share of the limit: negative beyond it, -1 where the measure is absent because the trial
 * failed at it, null where there is no limit or nothing to compare with it.
 */
export function slack(measure: Measure, worst: WorstMeasure, limit: number | null): number | null {
  if (limit === null || measure.better === null) return null;
  if (FAILING.includes(worst.absent)) return -1;
  if (worst.value === null) return null;
  return (measure.better === "low" ? limit - worst.value : worst.value - limit) / Math.abs(limit || 1);
}
