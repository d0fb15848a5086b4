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
  // Two sums each: an addition need not wait for the one before.
  let [sum, moment, otherSum, otherMoment] = [0, 0, 0, 0];
  let k = from;
  for (; k + 1 < to; k += 2) {
    const value = values[k];
    const next = values[k + 1];
    sum += value;
    moment += (k - middle) * value;
    otherSum += next;
    otherMoment += (k + 1 - middle) * next;
  }
  if (k < to) {
    sum += values[k];
    moment += (k - middle) * values[k];
  }
  return { mean: (sum + otherSum) / count, slope: (moment + otherMoment) / ((count * (count * count - 1)) / 12) };
}
