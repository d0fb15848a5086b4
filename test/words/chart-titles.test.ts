// Titles that state what a chart shows, from hand-made numbers on both sides of what counts.
import { describe, expect, it } from "vitest";
import type { AxisDrift } from "../../src/compare/format.js";
import type { ConditionBoundary } from "../../src/map/format.js";
import { mapTitle, measureTitle, safeTitle, shiftTitle, throttleTitle } from "../../src/words/chart-titles.js";
import { fixture, withoutStart } from "../report/fixture.js";

const plain = (text: string) => text.replaceAll("\u00a0", " ");
const level = (throttle: number, ends: readonly (number | null)[]) =>
  ({
    throttle,
    perD: ends.map((p, d) => ({ d, stable: [{ from: 5, to: p ?? 99, fromOpen: true, toOpen: p === null }] })),
  }) as unknown as ConditionBoundary;
const titleOf = (...levels: ConditionBoundary[]) => plain(throttleTitle("roll", "fresh pack", levels));

describe("what throttle does to the boundary", () => {
  it("is read at the lowest D where both ends lie within the sweep", () => {
    expect(titleOf(level(80, [30, 33]), level(50, [40, 50]), level(25, [null, 60]))).toBe(
      "Roll, fresh pack: at 80 % throttle the boundary is 45 % lower than at 25 %", // 1 - 33 / 60
    );
    expect(titleOf(level(80, [60]), level(25, [50]))).toMatch(/is 20 % higher than at 25 %$/);
  });

  it("is said to be none where it is less than a chart can show, or cannot be read", () => {
    expect(titleOf(level(80, [49.5]), level(25, [50]))).toMatch(/throttle hardly moves the boundary$/);
    expect(titleOf(level(80, [48.5]), level(25, [50]))).toMatch(/is 3 % lower/);
    expect(titleOf(level(80, [null]), level(25, [50]))).toMatch(/no two throttles have an end at the same D$/);
    expect(titleOf(level(80, [30]))).toMatch(/simulated at one throttle$/);
  });
});

describe("titles of maps", () => {
  const map = fixture(12);

  it("say how much is safe, and none where none is", () => {
    const share = (100 * map.axes.roll.safeShare).toPrecision(3);
    expect(plain(mapTitle(map, "roll"))).toBe(`Roll: ${Number(share)} % of the swept points are safe`);
    const roll = { ...map.axes.roll, safeShare: 0 };
    expect(mapTitle({ ...map, axes: { ...map.axes, roll } }, "roll")).toBe("Roll: no swept point is safe");
  });

  it("say of a measure what the start has of it, and its limit", () => {
    expect(plain(measureTitle(map, "roll", "overshoot"))).toMatch(
      /^Roll, bounce-back: [\d.]+ % at the start, limit 15 %$/,
    );
    expect(measureTitle(withoutStart(map, "roll", "None."), "roll", "overshoot")).toMatch(/: no start, limit/);
  });
});

describe("titles of a comparison's charts", () => {
  const drift = (low: number | null, high: number | null, lost = 0, gained = 0) =>
    ({
      shift: { lowest: low === null ? null : { percent: low }, highest: high === null ? null : { percent: high } },
      safe: { lost, gained },
    }) as unknown as AxisDrift;

  it("say how the boundary moved", () => {
    expect(plain(shiftTitle("roll", drift(-10, 2.1)))).toBe("Roll: the boundary moves by −10 to +2.1 %");
    expect(plain(shiftTitle("roll", drift(-10, -10)))).toBe("Roll: the boundary moves by −10 %");
    expect(shiftTitle("roll", drift(0, 0))).toBe("Roll: the boundary stays where it was");
    expect(shiftTitle("roll", drift(null, null))).toBe("Roll: no D has a shift of the boundary");
  });

  it("count safe points", () => {
    expect(safeTitle("pitch", drift(0, 0, 1, 3))).toBe("Pitch: 1 safe point lost, 3 gained");
    expect(safeTitle("pitch", drift(0, 0))).toBe("Pitch: no safe point lost, none gained");
  });
});
