// Between which of a sample further ones lie: order statistics, whatever the distribution. Of n draws, a further one lies
// between the r-th from either end in (n + 1 - 2 r)/(n + 1) of cases: S.S. Wilks, "Determination of sample sizes for setting
// tolerance limits", Annals of Mathematical Statistics 12 (1941) 91-96 (from memory).
import { at } from "./at.js";

export interface ToleranceInterval {
  readonly low: number;
  /** The median. */
  readonly middle: number;
  readonly high: number;
}

/**
 * `level` of further draws lie from low to high: of 64 the third from either end holds 90.8 of 100. Null: an unknown value,
 * which may be anything. Null where so few draws cannot say it: under 19 at 90 %.
 */
export function toleranceInterval(values: readonly (number | null)[], level = 0.9): ToleranceInterval | null {
  const rising = values.filter((value) => value !== null).sort((one, other) => one - other);
  const unknown = values.length - rising.length;
  const rank = Math.floor(0.5 * (1 - level) * (values.length + 1) + ROUNDING);
  // An unknown value may lie at either end.
  const place = rank - 1 - unknown;
  if (place < 0) return null;
  const half = Math.floor((rising.length - 1) / 2);
  const middle = 0.5 * (at(rising, half) + at(rising, rising.length - 1 - half));
  return { low: at(rising, place), middle, high: at(rising, rising.length - 1 - place) };
}

const ROUNDING = 1e-9; // 0.05 * 20 is one draw
