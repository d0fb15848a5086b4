// Finds axes that no script moves: their trials would call every gain clean.
import type { PlanFault } from "../plan/fault.js";
import type { Plan, Variant } from "../plan/plan.js";
import { emptyAnswers } from "../response/answer.js";
import { plainTrials, simulatePlain } from "../run/plain.js";
import type { Axis, RateValue } from "../sweep/sweep.js";

/** A fault for each axis that no script of the sweep moves on this craft. */
export const unmovedFaults = (plan: Plan): PlanFault[] =>
  (["roll", "pitch"] as const).flatMap((axis) => {
    const variants = plan.variants.filter((variant) => variant.axis === axis);
    if (variants.length === 0 || variants.some((variant) => isDriven(plan, variant))) return [];
    if (onePerScript(variants).some((variant) => moves(plan, variant, axis))) return [];
    const names = [...new Set(variants.map(({ script }) => `"${script.name}"`))].join(", ");
    const message = `nothing moves ${axis} in ${names}: no command, no noise, no rough air, and a craft that is even about it; trials at rest say nothing of any gain; add {use: nudge}`;
    return [{ file: "sweep" as const, path: ["scripts"], message }];
  });

/** Whether a command or the sensor's own noise drives the axis: no trial is needed to see it move. */
function isDriven(plan: Plan, { script, rate }: Variant): boolean {
  const { noiseDensity, vibration } = plan.airframe.sensing;
  const commanded = (value: RateValue) => (value.kind === "rate" ? value.rate : value.share * rate) !== 0;
  if (script.command.some(([, value]) => commanded(value))) return true;
  return script.noise && (noiseDensity > 0 || vibration.some(({ atHover }) => atHover > 0));
}

/** The first level of each script under each condition: a craft balanced about an axis at one throttle is so at another. */
const onePerScript = (variants: readonly Variant[]): Variant[] => {
  const first = new Map<string, Variant>();
  for (const variant of variants) {
    const key = `${variant.condition} ${variant.script.name}`;
    if (!first.has(key)) first.set(key, variant);
  }
  return [...first.values()];
};

/** One trial at the holding gains of the axis: stable, so that nothing but the script moves it. */
function moves(plan: Plan, variant: Variant, axis: Axis): boolean {
  const { p, d } = plan.holding[axis];
  return simulatePlain(plainTrials(plan, variant), p, d, emptyAnswers()) !== "at rest";
}
