// Passages of a signal through a level, each counted only once the signal has gone beyond a threshold on the other side:
// noise about the level does not count, and the threshold does not shift the instants.

export interface Passages {
  readonly count: number;
  /** Mean frequency, Hz; 0 with fewer than two passages. Over whole cycles where there is one: halves may be unequal. */
  frequency(period: number): number;
}

/**
 * Passages of values - less, sample by sample, through `level`. Looks for what lies beyond the threshold, then back for where it
 * passed.
 */
export function passagesOf(values: Float64Array, less: Float64Array, threshold: number, level = 0): Passages {
  const { length } = values;
  const [low, high] = [level - threshold, level + threshold];
  const passed: [first: number, beforeLast: number, last: number] = [0, 0, 0];
  let count = 0;
  let k = 0;
  let signal = 0;
  for (; k < length; k++) {
    signal = values[k] - less[k];
    if (signal > high || signal < low) break;
  }
  let above = signal > high;
  for (;;) {
    if (above) while (k < length && !(values[k] - less[k] < low)) k++;
    else while (k < length && !(values[k] - less[k] > high)) k++;
    if (k >= length) break;
    above = !above;
    let at = k;
    while (at > 0 && values[at - 1] - less[at - 1] > level === above) at--;
    if (count === 0) passed[0] = at;
    passed[1] = passed[2];
    passed[2] = at;
    count++;
  }
  return passagesAt(count, passed);
}

/** So many passages, with the places of the first, the last but one and the last. */
export function passagesAt(
  count: number,
  [first, beforeLast, last]: readonly [first: number, beforeLast: number, last: number],
): Passages {
  return {
    count,
    frequency(period) {
      if (count < 2) return 0;
      const odd = count > 2 && count % 2 === 0;
      const halves = odd ? count - 2 : count - 1;
      return halves / 2 / (((odd ? beforeLast : last) - first) * period);
    },
  };
}
