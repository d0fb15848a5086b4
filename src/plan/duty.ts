// The duty of a script's throttle value at a swept level.
import type { ThrottleValue } from "../sweep/sweep.js";

/** Duty fraction. */
export function dutyOf(value: ThrottleValue, level: number, idle: number): number {
  if (value.kind === "idle") return idle;
  return value.kind === "duty" ? value.duty : level + value.plus;
}
