// Lines chosen from round values: so many, each once, as dense as the weights say.
import { describe, expect, it } from "vitest";
import { chosenValues, roundedDown, roundedUp, roundValues } from "../../src/plan/line-choice.js";
import { spreadLine } from "../../src/plan/line-spread.js";

const ENDS = (values: readonly number[]) => [0, values.length - 1];

describe("values of so many digits", () => {
  it("step by the last digit, ten times wider from one power of ten to the next", () => {
    expect(roundValues(0.98, 1.3, 2)).toEqual([0.98, 0.99, 1, 1.1, 1.2, 1.3]);
    expect(roundValues(9.8, 12, 2)).toEqual([9.8, 9.9, 10, 11, 12]);
    expect(roundValues(9.98, 10.2, 3)).toEqual([9.98, 9.99, 10, 10.1, 10.2]);
  });

  it("are the number that the same text in a file is, to the last bit", () => {
    for (const value of roundValues(0.01, 100, 2)) expect(Number(value.toPrecision(2))).toBe(value);
    expect(roundValues(0.01, 100, 2)).toHaveLength(4 * 90 + 1);
  });

  it.each([
    [0.0104, 0.01, 0.011],
    [1, 1, 1],
    [1.005, 1, 1.1],
    [0.999, 0.99, 1],
    [9.96, 9.9, 10],
    [99.4, 99, 100],
    [104, 100, 110],
  ])("%d is rounded outwards to %d and %d", (value, down, up) => {
    expect([roundedDown(value, 2), roundedUp(value, 2)]).toEqual([down, up]);
  });
});

describe("a choice among values", () => {
  const values = roundValues(1, 100, 2);

  it.each([2, 3, 8, 24, 64, 150])("takes %d, rising, the needed ones among them", (count) => {
    const chosen = chosenValues(
      values,
      values.map(() => 1),
      count,
      ENDS(values),
    );
    expect(chosen).toHaveLength(count);
    expect([chosen[0], chosen.at(-1)]).toEqual([1, 100]);
    expect(chosen.every((value, k) => k === 0 || value > (chosen[k - 1] as number))).toBe(true);
  });

  it("takes from each part as many as its weight's share, one more or less", () => {
    const weights = values.map((value) => (value < 10 ? 3 : 1));
    const chosen = chosenValues(values, weights, 42, ENDS(values));
    // 89 free values of weight 3 and 90 of weight 1: 40 x 267 / 357 below 10, and the first
    expect(chosen.filter((value) => value < 10).length).toBeGreaterThanOrEqual(30);
    expect(chosen.filter((value) => value < 10).length).toBeLessThanOrEqual(32);
  });

  it("takes each value once where a weight asks for more than there are, and the rest elsewhere", () => {
    const weights = values.map((value) => (value >= 10 && value < 15 ? 1000 : 1));
    const chosen = chosenValues(values, weights, 24, ENDS(values));
    expect(chosen).toHaveLength(24);
    expect(chosen.filter((value) => value >= 10 && value < 15)).toEqual([10, 11, 12, 13, 14]);
  });
});

describe("lines over a range", () => {
  const bump = { node: [0, 4, 5, 6, 7, 20], weight: [0, 0, 1, 1, 0, 0] };

  it("are densest under the weight, begin and end where asked, and have one near each place asked for", () => {
    const lines = spreadLine(bump, [0, 15, 20], 24, 0.7);
    expect(lines).toHaveLength(24);
    expect([lines[0], lines.at(-1)]).toEqual([0, 20]);
    expect(lines).toContain(15);
    const within = lines.filter((line) => line >= 4 && line <= 7).length;
    expect(within).toBeGreaterThanOrEqual(15); // 0.7 of 24, less a line for rounding
  });

  it("spread over all of the range, wider with distance, where there is no weight", () => {
    const lines = spreadLine({ node: [0, 20], weight: [0, 0] }, [0, 20], 16, 0.7);
    const steps = lines.slice(1).map((line, k) => line - (lines[k] as number));
    expect(lines).toHaveLength(16);
    expect(Math.max(...steps)).toBeLessThan(4);
    expect(steps.at(-1) as number).toBeGreaterThan(steps[1] as number);
  });

  it("get a third digit where two do not give so many values", () => {
    const lines = spreadLine(bump, [10, 20], 24, 0.7);
    expect(lines).toHaveLength(24);
    expect(new Set(lines).size).toBe(24);
    expect(lines.some((line) => Number(line.toPrecision(2)) !== line)).toBe(true);
    expect(lines.every((line) => Number(line.toPrecision(3)) === line)).toBe(true);
  });
});
