import { describe, expect, it } from "vitest";
import { VERDICTS } from "../../src/base/measures.js";
import type { Role } from "../../src/charts/ink.js";
import { MARK_STROKES } from "../../src/charts/marks.js";
import { DARK, LIGHT } from "../../src/report/page/palette.js";
import { contrast, difference, SIGHT } from "./colour.js";

// WCAG 2.2 success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (graphics, 3 : 1), quoted in public material.
const TEXT: readonly (readonly [Role, Role])[] = [
  ["ink", "paper"],
  ["ink", "sheet"],
  ["soft", "paper"],
  ["soft", "sheet"],
  ["contour", "paper"],
  ["contour", "sheet"],
  ["warn", "paper"],
  ["warn", "sheet"],
  ["ink", "clean"],
  ["ink", "safe"],
  ["ink", "avoid"],
  ["ink", "loose"],
  ["ink", "ringing"],
  ["ink", "hot"],
  ["ink", "lost"],
  ["ink", "gained"],
  ["letter-on-sustained", "sustained"],
];
const LINES: readonly (readonly [Role, Role])[] = [
  ["contour", "clean"],
  ["contour", "safe"],
  ["contour", "loose"],
  ["contour", "ringing"],
  ["contour", "hot"],
  ["ink", "sustained"],
  ["warn", "sheet"],
  ["warn", "safe"],
];
const GROUND: readonly Role[] = [...VERDICTS, "safe"];
/** Of a comparison: what was lost and gained is no verdict's ground. */
const CHANGED: readonly Role[] = [...GROUND, "lost", "gained"];
const LOCATOR: readonly Role[] = ["safe", "avoid", "sustained"]; // of the small map on the first screen

describe.each([
  ["day", LIGHT],
  ["dark", DARK],
] as const)("the %s palette", (_, palette) => {
  it.each(TEXT)("carries %s letters on %s at 4.5 : 1 or more", (letters, ground) => {
    expect(contrast(palette[letters], palette[ground])).toBeGreaterThanOrEqual(4.5);
  });

  it.each(LINES)("carries %s lines on %s at 3 : 1 or more", (line, ground) => {
    expect(contrast(palette[line], palette[ground])).toBeGreaterThanOrEqual(3);
  });

  // 2 : 1 is our own choice: marks repeat what the colour says, and must not drown the lines.
  it.each([...VERDICTS, "lost", "gained"] as const)("lets the mark of %s be seen on its ground", (verdict) => {
    expect(contrast(palette[MARK_STROKES[verdict].role], palette[verdict])).toBeGreaterThanOrEqual(2);
  });

  // 10 units of the 1976 difference are several times a just noticeable one (about 2.3; quoted in public material).
  it.each(Object.entries(SIGHT))("keeps every two kinds of ground apart for eyes with %s", (_sight, matrix) => {
    for (const grounds of [CHANGED, LOCATOR])
      for (const [k, one] of grounds.entries())
        for (const other of grounds.slice(k + 1))
          expect(difference(palette[one], palette[other], matrix), `${one} and ${other}`).toBeGreaterThanOrEqual(10);
  });
});

it("measures contrast as the standard does: black on white is 21 : 1", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
  expect(contrast("#777777", "#ffffff")).toBeCloseTo(4.48, 2);
});
