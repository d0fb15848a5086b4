// What many timings come down to.
export const least = (values) => Math.min(...values);
export const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

/** Slope of log y against log x: 1 where y grows as x does. */
export function exponent(pairs) {
  const logs = pairs.map(([x, y]) => [Math.log(x), Math.log(y)]);
  const mean = (k) => logs.reduce((sum, pair) => sum + pair[k], 0) / logs.length;
  const [x, y] = [mean(0), mean(1)];
  const sum = (of) => logs.reduce((total, pair) => total + of(pair), 0);
  return sum(([a, b]) => (a - x) * (b - y)) / sum(([a]) => (a - x) ** 2);
}
