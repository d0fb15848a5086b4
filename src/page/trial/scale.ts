// Round steps for the axes of a chart.

/** Rising round values inside the range, at most `most` of them. */
export function ticks([from, to]: readonly [number, number], most: number): number[] {
  const rough = (to - from) / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((digit) => digit * power).find((size) => size >= rough) ?? 10 * power;
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.floor(to / step) - first + 1 }, (_, k) =>
    Number(((first + k) * step).toPrecision(6)),
  );
}

/** The least range that holds all values. */
export function rangeOf(...series: readonly Float64Array[]): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const values of series)
    for (const value of values) {
      if (value < low) low = value;
      if (value > high) high = value;
    }
  return high > low ? [low, high] : [low - 1, high + 1];
}
