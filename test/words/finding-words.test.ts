import { describe, expect, it } from "vitest";
import type { Baseline } from "../../src/compare/baseline.js";
import type { AxisEffect, Effect } from "../../src/compare/effect-format.js";
import { findingWords } from "../../src/words/finding-words.js";

const axis = (ground: number, boundary: number): AxisEffect => ({
  ground: { percent: ground, seen: ground !== 0, points: { asItIs: 100, changed: 100 + ground } },
  boundary: { percent: boundary, seen: boundary !== 0 },
  conditions: [],
  tune: null,
  start: { asItIs: null, changed: null },
});

function finding(kind: Effect["kind"], ground: number, boundary: number): string {
  const delay = { asItIs: 1, changed: 1 };
  const found = { delayMs: { p: delay, d: delay }, gain: 0, planDigest: "", map: {} as Baseline };
  const axes = { roll: axis(ground, boundary), pitch: axis(0, 0) };
  return findingWords({ kind, name: "a filter", set: [], found: { ...found, axes } }).replaceAll("\u00a0", " ");
}

describe("what a thing that is taken out gains and costs", () => {
  it("is a share of what there would be without it, never more than all of it", () => {
    // Without it the boundary lies twice as high: with it, half as high.
    expect(finding("without", 0, 100)).toBe("A filter: nothing gained, at the cost of a boundary 50 % lower on roll.");
    expect(finding("without", 25, 0)).toBe("A filter: nothing gained, at the cost of 20 % less safe ground on roll.");
    expect(finding("without", 0, -50)).toBe("A filter: a boundary 100 % higher on roll, at no cost seen.");
    expect(finding("without", 0, -100)).toMatch(/^A filter: a boundary 100 % higher on roll/);
  });

  it("says what safe ground it gains as a share of what there is", () => {
    expect(finding("without", -80, 0)).toBe("A filter: 80 % of the safe ground on roll, at no cost seen.");
  });
});

describe("what a thing that is put in would gain and cost", () => {
  it("is a share of what there is", () => {
    expect(finding("with", 0, 100)).toBe("A filter: a boundary 100 % higher on roll, at no cost seen.");
    expect(finding("with", -80, 0)).toBe("A filter: nothing gained, at the cost of 80 % less safe ground on roll.");
  });
});
