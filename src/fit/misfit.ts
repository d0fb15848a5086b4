// Whether residuals are as small as their errors promise, and what is done where they are not.
import { at } from "../base/at.js";
import type { Group, Likeliest } from "./least-squares.js";

/** Of one group: by which its variances are too small; 1 where they are not. */
export interface Misfit {
  /** Chi square over degrees of freedom. */
  readonly perFreedom: number;
  /** By which residuals that follow each other in frequency count for less than as many independent ones, 1 or more. */
  readonly repeats: number;
}

/** The last lag of neighbours that is looked at, a share of the group. */
const LAST_LAG = 0.25;
const LEAST_FREEDOM = 2;

/** Only responses are so many residuals that they say something of their own errors. */
export function misfitOf({ residuals, slopes, covariance, scale }: Likeliest, { from, to, single }: Group): Misfit {
  if (single) return { perFreedom: 1, repeats: 1 };
  const some = [...residuals.subarray(from, to)];
  const square = some.reduce((sum, r) => sum + r * r, 0);
  const fitted = slopes.subMatrix(from, to - 1, 0, slopes.columns - 1);
  const hat = fitted.mmul(covariance).mmul(fitted.transpose());
  const used = some.reduce((sum, _, k) => sum + hat.get(k, k) / at(scale, from + k) ** 2, 0);
  const freedom = some.length - used;
  return { perFreedom: freedom < LEAST_FREEDOM ? 1 : square / freedom, repeats: repeatsOf(some, square) };
}

/** 1 + 2 (sum of autocorrelations up to the first that chance may have made): Bartlett 1946. Two residuals a frequency. */
function repeatsOf(residuals: readonly number[], square: number): number {
  const chance = 2 / Math.sqrt(residuals.length);
  let sum = 1;
  for (let lag = 2; lag <= LAST_LAG * residuals.length; lag += 2) {
    let product = 0;
    for (let k = lag; k < residuals.length; k++) product += at(residuals, k) * at(residuals, k - lag);
    if (product <= chance * square) break;
    sum += (2 * product) / square;
  }
  return sum;
}

/** By which the errors of a group are to be multiplied: never below 1. */
export const errorsTimes = ({ perFreedom, repeats }: Misfit): number => Math.sqrt(Math.max(1, perFreedom * repeats));
