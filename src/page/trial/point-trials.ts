// Every trial of one point, simulated in slices that keep the page responsive.
import type { Variant } from "../../plan/plan.js";
import { OUTCOMES } from "../../run/task.js";
import { trialWork } from "../../run/work.js";
import type { Axis } from "../../words/axes.js";
import { SLICE } from "../cost.js";
import type { Yielding } from "../level-map.js";
import type { Simulator } from "../simulator.js";
import { type Trial, trialFrom } from "./trial.js";

/** SI gains. */
export interface PointGains {
  readonly axis: Axis;
  readonly p: number;
  readonly d: number;
}

export interface PointTrial {
  readonly variant: Variant;
  readonly trial: Trial;
}

export const variantsOf = ({ plan }: Pick<Simulator, "plan">, axis: Axis): Variant[] =>
  plan.variants.filter((variant) => variant.axis === axis);

/** Rotor steps of all of them. */
export const pointWork = ({ plan }: Pick<Simulator, "plan">, axis: Axis): number =>
  variantsOf({ plan }, axis).reduce((sum, variant) => sum + trialWork(plan, variant), 0);

/** Share of a slice after which the browser has its turn: setting a variant up takes as long as several trials. */
const TURN = SLICE / 32;

/** In the order of the plan; null if they are no longer wanted. */
export async function pointTrials(
  simulator: Simulator,
  { axis, p, d }: PointGains,
  { pause, onProgress, isCurrent }: Yielding,
): Promise<readonly PointTrial[] | null> {
  const variants = variantsOf(simulator, axis);
  const done: PointTrial[] = [];
  let work = 0;
  for (const variant of variants) {
    if (work === 0 || work > TURN) {
      work = 0;
      onProgress({ done: done.length, of: variants.length });
      await pause();
      if (!isCurrent()) return null;
    }
    const task = { variant: variant.index, p: Float64Array.of(p), d: Float64Array.of(d) };
    const { values, absent, outcome } = simulator.run(task);
    done.push({ variant, trial: trialFrom({ values, absent }, OUTCOMES[outcome[0] ?? 0] ?? "dies out") });
    work += trialWork(simulator.plan, variant);
  }
  return done;
}
