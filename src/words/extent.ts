// The range of many numbers: a fine map's contours hold more points than a call may have arguments.

/** Lowest and highest of the values and of those given first; both infinite the wrong way round where there are none. */
export function extentOf(values: Iterable<number>, ...first: readonly number[]): readonly [low: number, high: number] {
  let [low, high] = [Math.min(...first), Math.max(...first)];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}
