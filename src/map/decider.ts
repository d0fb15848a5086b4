// What decided a point or ended a range, coded as one number: a variant of the plan, nothing, or theory at a variant's
// level and under its condition.
import { THEORY } from "../base/theory-name.js";
import type { LimitingCase } from "./limiting-case.js";

export const NOBODY = -1;

/** Theory at the level and under the condition of a variant. */
export const byTheory = (variant: number): number => -2 - variant;

/** The variant of a code, itself or by its level and condition; -1: none. */
export const variantOf = (code: number): number => (code < NOBODY ? -2 - code : code);

/** The limiting case of a code, from that of its variant; null: none. */
export function limitingCaseBy(
  code: number,
  caseOf: (variant: number) => LimitingCase | undefined,
): LimitingCase | null {
  const found = caseOf(variantOf(code));
  if (found === undefined || code === NOBODY) return null;
  const { script, throttle, rate, condition } = found;
  return code < NOBODY ? { script: THEORY, throttle, rate: 0, condition } : { script, throttle, rate, condition };
}
