// One place of the gain plane judged by trials and margins of its own, between grid lines or on them.
import type { Plan, Variant } from "../plan/plan.js";
import { NOBODY } from "./decider.js";
import type { AxisTheory, PointMargins } from "./margins.js";
import { type Ask, sustains } from "./trials.js";
import { isClean } from "./verdict.js";
import { type WorstPoint, worstPoint } from "./worst.js";

/** What it takes to try a place of one axis. */
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
  /** Who says that an oscillation does not die out, a code of `decider.ts`. */
  readonly sustainedBy: number;
  /** Clean, and the wanted margins hold at every level and condition, where theory finds every loop stable. */
  readonly safe: boolean;
}

/** `objects` is theory's code where it objects to the place, whatever the trials say. */
export async function simulatePoint(
  { plan, variants, theory, ask }: PointTrials,
  p: number,
  d: number,
  objects = NOBODY,
): Promise<PointResult> {
  const table = await ask(variants.map((variant) => ({ variant: variant.index, p, d })));
  const worst = worstPoint(variants.map((variant, row) => ({ variant: variant.index, table, row })));
  const sustainedBy = variants.find((_, row) => sustains(table, row))?.index ?? objects;
  const margins = theory.margins(p, d);
  const { gain, phase } = plan.sweep.margins;
  const roomy =
    margins.phase > 0 && margins.gainUp >= gain && (margins.gainDown ?? gain) >= gain && margins.phase >= phase;
  return { p, d, worst, margins, sustainedBy, safe: roomy && isClean(worst, sustainedBy, plan.sweep.limits) };
}
