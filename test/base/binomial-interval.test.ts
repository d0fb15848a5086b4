// Clopper and Pearson 1934; the rows recomputed elsewhere by the beta distribution.
import { expect, it } from "vitest";
import { shareInterval } from "../../src/base/binomial-interval.js";

it.each([
  [81, 263, 0.252737, 0.367622],
  [15, 148, 0.057844, 0.16165],
  [0, 20, 0, 0.168433],
  [1, 29, 0.000873, 0.177644],
  [0, 10, 0, 0.308497],
])("%s of %s is %s to %s", (count, of, low, high) => {
  const [from, to] = shareInterval(count, of);
  expect(from).toBeCloseTo(low, 6);
  expect(to).toBeCloseTo(high, 6);
});

it("is the mirror of the share that is not", () => {
  for (const [count, of] of [
    [61, 64],
    [64, 64],
    [500, 1024],
  ] as const) {
    const [low, high] = shareInterval(count, of);
    const [from, to] = shareInterval(of - count, of);
    expect(low).toBeCloseTo(1 - to, 12);
    expect(high).toBeCloseTo(1 - from, 12);
  }
  // the rule of three, Hanley and Lippman-Hand 1983: one-sided 95 % is 1 - 0.05^(1/n)
  expect(shareInterval(0, 100, 0.9)[1]).toBeCloseTo(0.029513, 6);
});

it("says 87 to 99 % of 61 of 64", () => {
  const [low, high] = shareInterval(61, 64);
  expect(Math.round(100 * low)).toBe(87);
  expect(Math.round(100 * high)).toBe(99);
});
