// One point of the gain plane, on or between grid lines, judged by its own trials and margins.
import type { Plan, Variant } from "../plan/plan.js";
import { NOBODY } from "./decider.js";
import type { AxisTheory, PointMargins } from "./margins.js";
import { type Ask, sustains } from "./trials.js";
import { isClean } from "./verdict.js";
import { type WorstPoint, worstPoint } from "./worst.js";

/** What simulating a point of one axis needs. */
export interface PointTrials {
  readonly plan: Plan;
  readonly variants: readonly Variant[];
  readonly theory: AxisTheory;
  readonly ask: Ask;
}

/** SI gains. */
export interface PointResult {
  readonly p: number;
  readonly d: number;
  readonly worst: WorstPoint;
  readonly margins: PointMargins;
  /** What finds that the oscillation does not die out, a code of `decider.ts`. */
  readonly sustainedBy: number;
  /** Clean, and the wanted margins hold at every level and condition, where theory finds every loop stable. */
  readonly safe: boolean;
}

/** `theoryObjection` is theory's code where theory finds the point unstable, whatever the trials show. */
export async function simulatePoint(
  trials: PointTrials,
  p: number,
  d: number,
  theoryObjection = NOBODY,
): Promise<PointResult> {
  const [result] = await simulatePoints(trials, [{ p, d }], theoryObjection);
  return result as PointResult;
}

/** Several at once, which costs less than one after the other; in their order. */
export async function simulatePoints(
  { plan, variants, theory, ask }: PointTrials,
  points: readonly { readonly p: number; readonly d: number }[],
  theoryObjection = NOBODY,
): Promise<PointResult[]> {
  const table = await ask(points.flatMap(({ p, d }) => variants.map(({ index }) => ({ variant: index, p, d }))));
  return points.map(({ p, d }, at) => {
    const rowOf = (place: number) => at * variants.length + place;
    const worst = worstPoint(variants.map(({ index }, place) => ({ variant: index, table, row: rowOf(place) })));
    const sustainedBy = variants.find((_, place) => sustains(table, rowOf(place)))?.index ?? theoryObjection;
    const margins = theory.margins(p, d);
    const safe = marginRoom(plan, margins) >= 0 && isClean(worst, sustainedBy, plan.sweep.limits);
    return { p, d, worst, margins, sustainedBy, safe };
  });
}

/** Room to the wanted margins, as the smaller share of what is wanted; -1 at most where a loop is unstable. */
export function marginRoom({ sweep }: Plan, { gainUp, gainDown, phase }: PointMargins): number {
  if (!(phase > 0)) return -1;
  const { gain, phase: wanted } = sweep.margins;
  const gainRoom = (Math.min(gainUp, gainDown ?? Number.POSITIVE_INFINITY) - gain) / (gain || 1);
  return Math.min(gainRoom, (phase - wanted) / (wanted || 1));
}
