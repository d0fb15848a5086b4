// Low-pass without phase, read at some instants only: a Hann-weighted mean.
import { numberAt } from "../base/at.js";
import { cos } from "../base/elementary.js";

export interface Smoothing {
  /** Samples on either side that a mean takes in. */
  readonly reach: number;
  /** Of a column about these samples; each must lie `reach` inside. */
  at(values: Float64Array, instants: readonly number[]): Float64Array;
}

/** First null at `width` Hz of columns sampled at `rate` Hz: half the amplitude at half of it, next to nothing beyond. */
export function hannSmoothing(width: number, rate: number): Smoothing {
  const reach = Math.max(1, Math.round(rate / width));
  const weights = Float64Array.from({ length: 2 * reach - 1 }, (_, k) => 1 - cos((Math.PI * (k + 1)) / reach));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return {
    reach,
    at: (values, instants) =>
      Float64Array.from(instants, (instant) => {
        let sum = 0;
        const first = instant - reach + 1;
        for (let k = 0; k < weights.length; k++) sum += numberAt(weights, k) * numberAt(values, first + k);
        return sum / total;
      }),
  };
}
