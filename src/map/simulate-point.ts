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
  { plan, variants, theory, ask }: PointTrials,
  p: number,
  d: number,
  theoryObjection = NOBODY,
): Promise<PointResult> {
  const table = await ask(variants.map((variant) => ({ variant: variant.index, p, d })));
  const worst = worstPoint(variants.map((variant, row) => ({ variant: variant.index, table, row })));
  const sustainedBy = variants.find((_, row) => sustains(table, row))?.index ?? theoryObjection;
  const margins = theory.margins(p, d);
  const { gain, phase } = plan.sweep.margins;
  const roomy =
    margins.phase > 0 && margins.gainUp >= gain && (margins.gainDown ?? gain) >= gain && margins.phase >= phase;
  return { p, d, worst, margins, sustainedBy, safe: roomy && isClean(worst, sustainedBy, plan.sweep.limits) };
}
