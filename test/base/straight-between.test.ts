import { expect, it } from "vitest";
import { straightBetween } from "../../src/base/straight-between.js";

const LINE = [
  [0, 10],
  [2, 20],
  [3, null],
  [4, 30],
] as const;

it.each([
  [-1, 10],
  [0, 10],
  [1, 15],
  [2, 20],
  [2.4, 20],
  [2.9, null],
  [3.9, 30],
  [9, 30],
])("reads a line at %d", (x, y) => {
  expect(straightBetween(LINE, x)).toBe(y);
});

it("reads nothing off no line", () => {
  expect(straightBetween([], 1)).toBeNull();
});
