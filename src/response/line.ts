// The straight line through a stretch of samples: what has drifted, as against what swings.
import { lengths } from "./reader.js";

export interface Line {
  /** Value of the line at the middle sample. */
  readonly mean: number;
  /** Change from one sample to the next. */
  readonly slope: number;
}

/** Least-squares line through values[from, to), two samples or more; value at k: mean + slope (k - (from + to - 1) / 2). */
export function lineThrough(values: Float64Array, from: number, to: number): Line {
  const [half, spread, count] = lengths(to - from);
  let [sum, moment] = [0, 0];
  for (let k = from; k < to; k++) {
    sum += values[k];
    moment += (k - from - half) * values[k];
  }
  return { mean: sum / count, slope: moment / spread };
}
