// The verdict on one point: the most severe reason that applies, every reason kept, the decider named.
import { type Argues, MEASURES, type Measure, type MeasureId, VERDICTS, type Verdict } from "../base/measures.js";
import { NOBODY } from "./decider.js";
import { FAILING, type WorstMeasure, type WorstPoint } from "./worst.js";

export type Limits = Readonly<Record<MeasureId, number | null>>;

export interface Judgement {
  readonly verdict: Verdict;
  /** Bit set over VERDICTS, "clean" never set. */
  readonly reasons: number;
  /** Who decided, a code of `decider.ts`: a variant, theory, or nobody where clean. */
  readonly decidedBy: number;
}

/** `sustainedBy` is the code of who says that an oscillation does not die out, or of nobody. */
export function judge(worst: WorstPoint, sustainedBy: number, limits: Limits): Judgement {
  const deciders = new Map<Verdict, number>();
  if (sustainedBy !== NOBODY) deciders.set("sustained", sustainedBy);
  const furthest = new Map<Verdict, number>();
  for (const measure of MEASURES) {
    const argues = argument(measure, worst);
    const room = slack(measure, worst[measure.id], limits[measure.id]);
    if (argues === null || room === null || room >= (furthest.get(argues) ?? 0)) continue;
    furthest.set(argues, room);
    deciders.set(argues, worst[measure.id].variant);
  }
  const verdict = VERDICTS.find((candidate) => deciders.has(candidate)) ?? "clean";
  const reasons = VERDICTS.reduce((bits, candidate, bit) => (deciders.has(candidate) ? bits | (1 << bit) : bits), 0);
  return { verdict, reasons, decidedBy: deciders.get(verdict) ?? NOBODY };
}

/** What a measure beyond its limit argues for at this point. */
function argument({ argues, unless }: Measure, worst: WorstPoint): Argues {
  const other = unless === null ? null : worst[unless.measure].value;
  return unless !== null && other !== null && other < unless.under ? unless.instead : argues;
}

/**
 * Room to a measure's limit as a share of the limit: negative beyond it, -1 where the measure is absent because the trial
 * failed at it, null where there is no limit or nothing to hold against it.
 */
export function slack(measure: Measure, worst: WorstMeasure, limit: number | null): number | null {
  if (limit === null || measure.better === null) return null;
  if (FAILING.includes(worst.absent)) return -1;
  if (worst.value === null) return null;
  return (measure.better === "low" ? limit - worst.value : worst.value - limit) / Math.abs(limit || 1);
}
