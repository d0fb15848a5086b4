// Who decided a point or closed a range, as one number: a variant of the plan, nobody, or theory at a variant's level
// and under its condition.
import { THEORY } from "../base/theory-name.js";
import type { LimitingCase } from "./limiting-case.js";

export const NOBODY = -1;

/** Theory at the level and under the condition of a variant. */
export const byTheory = (variant: number): number => -2 - variant;

/** The variant of a code, itself or by its level and condition; -1: nobody. */
export const variantOf = (code: number): number => (code < NOBODY ? -2 - code : code);

/** The culprit of a code, by that of its variant; null: nobody. */
export function culpritBy(code: number, culprit: (variant: number) => LimitingCase | undefined): LimitingCase | null {
  const found = culprit(variantOf(code));
  if (found === undefined || code === NOBODY) return null;
  const { script, throttle, rate, condition } = found;
  return code < NOBODY ? { script: THEORY, throttle, rate: 0, condition } : { script, throttle, rate, condition };
}
