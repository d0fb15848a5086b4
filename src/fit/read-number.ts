// A number of the model that a log shows by itself, without a fit.
import { studentQuantile } from "../base/student.js";
import type { Estimated } from "./format.js";

export interface ReadNumber {
  /** As the model spells it: "sensing.noise". */
  readonly key: string;
  /** SI, with the interval that holds 95 of 100; null where the log does not show it. */
  readonly value: Estimated | null;
  /** Why it is null, or what it rests on. */
  readonly why: string;
}

/** Mean of values of which so many are independent, and half of the 95 % interval of the mean. */
export function meanWithHalf(
  values: readonly number[],
  independent: number,
): { readonly mean: number; readonly half: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length - 1);
  const freedom = Math.max(1, Math.floor(independent) - 1);
  return { mean, half: studentQuantile(freedom) * Math.sqrt(square / Math.max(1, independent)) };
}

/** An interval that is as wide as all its parts together, each a half width as a share of the value. */
export function within(value: number, ...shares: readonly number[]): Estimated {
  const share = Math.sqrt(shares.reduce((sum, one) => sum + one * one, 0));
  // in ratio, so that no amplitude may come out below nothing
  return { middle: value, low: value / (1 + share), high: value * (1 + share) };
}
