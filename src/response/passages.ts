// Passages of a signal through zero, each believed only once the signal has gone beyond a threshold on the other side:
// noise about zero does not count, and the threshold does not shift the dates.

export interface Passages {
  readonly count: number;
  /** Mean frequency, Hz; 0 with fewer than two passages. Over whole cycles where there is one: halves may be unequal. */
  frequency(period: number): number;
}

/** Of signal[0, length): one sample per `period` later on. Looks for what lies beyond, then back for where it passed. */
export function passagesOf(signal: Float64Array, length: number, threshold: number): Passages {
  const passed: [first: number, beforeLast: number, last: number] = [0, 0, 0];
  let count = 0;
  let k = 0;
  while (k < length && !(Math.abs(signal[k]) > threshold)) k++;
  let above = k < length && signal[k] > 0;
  for (;;) {
    if (above) while (k < length && !(signal[k] < -threshold)) k++;
    else while (k < length && !(signal[k] > threshold)) k++;
    if (k >= length) break;
    above = !above;
    let at = k;
    while (at > 0 && signal[at - 1] > 0 === above) at--;
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
