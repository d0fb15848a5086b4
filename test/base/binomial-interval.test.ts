// Clopper and Pearson 1934; the rows recomputed elsewhere by the beta distribution.
import { expect, it } from "vitest";
import { chanceOfPairs, shareInterval } from "../../src/base/binomial-interval.js";

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

/** Twice the tail of a fair coin, counted in whole numbers. */
function countedChance(lost: number, gained: number): number {
  const pairs = lost + gained;
  let [ways, tail] = [1n, 0n];
  for (let k = 0; k <= pairs; k++) {
    if (k >= Math.max(lost, gained)) tail += ways;
    ways = (ways * BigInt(pairs - k)) / BigInt(k + 1);
  }
  return Math.min(1, Number((2_000_000_000_000n * tail) / 2n ** BigInt(pairs)) / 1e12);
}

it.each([
  [7, 0, 2 / 128],
  [1, 9, 22 / 1024], // tables of the sign test
  [0, 0, 1],
  [3, 3, 1],
  [5, 1, 14 / 64],
])("%d lost and %d gained are by chance in %d of cases (McNemar 1947, exact)", (lost, gained, chance) => {
  expect(chanceOfPairs(lost, gained)).toBeCloseTo(chance, 12);
});

it("agrees with counting every outcome", () => {
  for (const [lost, gained] of [
    [12, 30],
    [30, 12],
    [64, 0],
    [31, 33],
  ] as const)
    expect(chanceOfPairs(lost, gained)).toBeCloseTo(countedChance(lost, gained), 11);
});
