// SI numbers of the plan as map.json writes them: display units of gains, rounded to the digits that do not depend on the order of sums.
import { at } from "../base/at.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import type { Plan, TrialPlan, TrialVariant } from "../plan/plan.js";
import { limitingCaseBy } from "./decider.js";
import type { LimitingCase } from "./limiting-case.js";

export const DEGREES = 180 / Math.PI;

/** Units of a map's gains, as files spell them. */
export const GAIN_UNITS = Object.freeze({ p: "%/(100 deg/s)", d: "%/(1000 deg/s^2)", i: "%/(100 deg)" });

/** Twelve significant digits: the same for sums in another order, and short to read. */
export const roundToTwelveDigits = (value: number): number => Number(value.toPrecision(12));
export const toDisplayP = (p: number): number => roundToTwelveDigits(p / P_UNIT);
export const toDisplayD = (d: number): number => roundToTwelveDigits(d / D_UNIT);

export function limitingCaseOf(plan: TrialPlan, variant: TrialVariant): LimitingCase {
  return {
    script: variant.script.name,
    throttle: roundToTwelveDigits(100 * variant.throttle),
    rate: roundToTwelveDigits(DEGREES * variant.rate),
    condition: at(plan.conditions, variant.condition).condition.name,
  };
}

/** The limiting case of a code of `decider.ts`; null: none. */
export const deciderIn = (plan: Plan, code: number): LimitingCase | null =>
  limitingCaseBy(code, (index) => {
    const variant = plan.variants[index];
    return variant === undefined ? undefined : limitingCaseOf(plan, variant);
  });
