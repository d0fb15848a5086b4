// One-sided probabilities of S from Kendall's table as it is reprinted for the test (Hollander and Wolfe; Gilbert 1987, table A18): from
// memory, three digits. Longer sequences: SciPy 1.17.1, kendalltau(method="exact") and theilslopes, computed for these values.
import { describe, expect, it } from "vitest";
import { mannKendall } from "../../src/base/mann-kendall.js";

/** 1 to n with so many pairs that fall. */
function withFalls(count: number, falls: number): number[] {
  const order: number[] = [];
  let left = falls;
  for (let value = 1; value <= count; value++) {
    const passed = Math.min(left, order.length);
    order.splice(order.length - passed, 0, value);
    left -= passed;
  }
  return order;
}

const atScore = (count: number, score: number) =>
  mannKendall(withFalls(count, ((count * (count - 1)) / 2 - score) / 2));

describe("the chance of a score", () => {
  it.each([
    [4, 4, 0.167],
    [4, 6, 0.042],
    [5, 6, 0.117],
    [5, 8, 0.042],
    [5, 10, 0.0083],
    [6, 13, 0.0083],
    [8, 16, 0.031],
    [8, 18, 0.016],
    [8, 20, 0.0071],
    [10, 21, 0.036],
    [10, 25, 0.014],
    [10, 27, 0.0083],
  ])("of %i values, %i, is the table's %f on either side", (count, score, tail) => {
    const rising = atScore(count, score);
    expect(rising.score).toBe(score);
    expect(rising.chance / 2).toBeCloseTo(tail, tail < 0.01 ? 4 : 3);
    const falling = mannKendall(withFalls(count, ((count * (count - 1)) / 2 - score) / 2).reverse());
    expect([falling.score, falling.chance]).toEqual([-score, rising.chance]);
  });

  it("agrees with SciPy on a dozen values", () => {
    const found = mannKendall([3.2, 2.9, 4.1, 3.8, 5.0, 4.4, 4.9, 6.1, 5.3, 5.8, 7.0, 6.2]);
    expect(found.score).toBe(52);
    expect(found.chance).toBeCloseTo(0.00010742344, 10);
    expect(found.slope).toBeCloseTo(0.315, 12);
  });

  it("of fifty values is the normal distribution's, within 2 % of SciPy's exact one", () => {
    const { score, chance } = mannKendall(Array.from({ length: 50 }, (_, k) => ((k * 37) % 50) + 0.35 * k));
    expect(score).toBe(73);
    expect(Math.abs(chance / 0.5489007966446253 - 1)).toBeLessThan(0.02);
  });

  it("with ties is near the share of all orders of the same values", () => {
    const values = [1, 1, 2, 2, 3, 4, 5];
    const scores = orders(values).map((order) => Math.abs(mannKendall(order).score));
    const rising = mannKendall(values);
    const share = scores.filter((score) => score >= rising.score).length / scores.length;
    expect(Math.abs(rising.chance - share)).toBeLessThan(0.01);
  });

  it("is 1 where every value is the same", () => {
    expect(mannKendall([2, 2, 2, 2])).toEqual({ score: 0, chance: 1, slope: 0 });
  });
});

const orders = (values: readonly number[]): number[][] =>
  values.length === 0
    ? [[]]
    : values.flatMap((value, k) => orders(values.filter((_, other) => other !== k)).map((rest) => [value, ...rest]));

it("the slope is the median's, whatever one value does", () => {
  expect(mannKendall([1, 2, 3, 4, 100]).slope).toBe(1);
  expect(() => mannKendall([1, 2])).toThrow(RangeError);
});
