import { describe, expect, it } from "vitest";
import { rangeOf, ticks } from "../../src/page/trial/scale.js";

describe("the ticks of an axis", () => {
  it.each([
    [[0, 2], 10, [0, 0.2, 0.4, 0.6, 0.8, 1, 1.2, 1.4, 1.6, 1.8, 2]],
    [[-130, 520], 6, [0, 200, 400]],
    [[5300, 14_800], 4, [10_000]],
    [[-0.5, 0.5], 4, [-0.5, 0, 0.5]],
  ] as const)("of %j, at most %i, are round and inside", (range, most, expected) => {
    const found = ticks(range as unknown as [number, number], most);
    expect(found.every((at) => at >= range[0] && at <= range[1])).toBe(true);
    expect(found).toEqual(expected);
  });
});

describe("the range of series", () => {
  it("holds every value of all of them, and is never empty", () => {
    expect(rangeOf(Float64Array.of(3, -1), Float64Array.of(7))).toEqual([-1, 7]);
    expect(rangeOf(Float64Array.of(5, 5))).toEqual([4, 6]);
  });
});
