// Passages of a signal through a level, each believed only once the signal has gone beyond a threshold on the other side:
// noise about it does not count, and the threshold does not shift the dates.

export interface Passages {
  readonly count: number;
  /** Mean frequency, Hz; 0 with fewer than two passages. Over whole cycles where there is one: halves may be unequal. */
  frequency(period: number): number;
}

/** Of signal[0, length) through `level`. Looks for what lies beyond the threshold, then back for where it passed. */
export function passagesOf(signal: Float64Array, length: number, threshold: number, level = 0): Passages {
  const [low, high] = [level - threshold, level + threshold];
  const passed: [first: number, beforeLast: number, last: number] = [0, 0, 0];
  let count = 0;
  let k = 0;
  while (k < length && !(signal[k] > high || signal[k] < low)) k++;
  let above = k < length && signal[k] > high;
  for (;;) {
    if (above) while (k < length && !(signal[k] < low)) k++;
    else while (k < length && !(signal[k] > high)) k++;
    if (k >= length) break;
    above = !above;
    let at = k;
    while (at > 0 && signal[at - 1] > level === above) at--;
    if (count === 0) passed[0] = at;
    passed[1] = passed[2];
    passed[2] = at;
    count++;
  }
  const [first, beforeLast, last] = passed;
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
