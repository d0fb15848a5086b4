// The straight line through a stretch of samples: what has drifted, as against what swings.

export interface Line {
  /** Value of the line at the middle sample. */
  readonly mean: number;
  /** Change from one sample to the next. */
  readonly slope: number;
}

/** Least-squares line through values[from, to), two samples or more; value at k: mean + slope (k - (from + to - 1) / 2). */
export function lineThrough(values: Float64Array, from: number, to: number): Line {
  const count = to - from;
  const middle = 0.5 * (from + to - 1);
  let sum = 0;
  let moment = 0;
  for (let k = from; k < to; k++) {
    sum += values[k];
    moment += (k - middle) * values[k];
  }
  return { mean: sum / count, slope: moment / ((count * (count * count - 1)) / 12) };
}
