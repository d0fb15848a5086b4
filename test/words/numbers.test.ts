import { expect, it } from "vitest";
import { count, percent, times, toThreeDigits, withUnit } from "../../src/words/numbers.js";
import { unitLabel } from "../../src/words/units.js";

it.each([
  [20.6049, "20.6"],
  [2.94, "2.94"],
  [20, "20"],
  [0.0478515625, "0.0479"],
  [-14.26, "\u221214.3"],
  [13_240, "13\u00a0200"],
  [999.7, "1\u00a0000"],
  [0, "0"],
  [-0, "0"],
])("writes %d with three significant digits as %s", (value, text) => {
  expect(toThreeDigits(value)).toBe(text);
});

it("groups whole numbers in full", () => {
  expect(count(360_448_000)).toBe("360\u00a0448\u00a0000");
  expect(count(12)).toBe("12");
});

it("writes shares, factors and units so that they stay on one line", () => {
  expect(percent(0.0478)).toBe("4.78\u00a0%");
  expect(times(1.2824)).toBe("\u00d7\u00a01.28");
  expect(withUnit(500, "\u00b0/s")).toBe("500\u00a0\u00b0/s");
  expect(withUnit(8, "\u00b0")).toBe("8\u00b0");
  expect(withUnit(0.4, "")).toBe("0.4");
  expect(withUnit(1, "half-cycles")).toBe("1\u00a0half-cycle");
  expect(withUnit(2, "half-cycles")).toBe("2\u00a0half-cycles");
});

it.each([
  ["%/(100 deg/s)", "% per 100\u00a0\u00b0/s"],
  ["%/(1000 deg/s^2)", "% per 1000\u00a0\u00b0/s\u00b2"],
  ["%/(100 deg)", "% per 100\u00b0"],
  ["deg rms", "\u00b0 rms"],
  ["deg/s", "\u00b0/s"],
  ["1/s", "1/s"],
  ["1", ""],
])("says the unit %s as %s", (unit, words) => {
  expect(unitLabel(unit)).toBe(words);
});
