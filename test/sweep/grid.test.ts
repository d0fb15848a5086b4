// The forms of a grid in a sweep file: even lines, lists, one grid for both axes or one for each, or left to the plan.
import { describe, expect, it } from "vitest";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { linesOf } from "../fixtures/both-axes.js";
import { complaintsOf } from "../fixtures/complaints.js";
import { changed } from "../fixtures/small-model.js";
import { parseSmallSweep, SMALL_SWEEP } from "../fixtures/small-sweep.js";

const EVEN = `grid:
  p: {from: 10 %/(100 deg/s), to: 30 %/(100 deg/s), points: 3}
  d: {from: 0 %/(1000 deg/s^2), to: 4 %/(1000 deg/s^2), points: 2}`;
const parse = (grid: string, ...more: [string, string][]) =>
  parseSmallSweep(changed(SMALL_SWEEP, [EVEN, grid], ...more));
const complaints = (grid: string, ...more: [string, string][]) => complaintsOf(() => parse(grid, ...more));

const LISTS = `{p: [5 %/(100 deg/s), 6 %/(100 deg/s), 20 %/(100 deg/s)], d: [0 %/(1000 deg/s^2), 2.5 %/(1000 deg/s^2)]}`;

describe("a grid as its file writes it", () => {
  it.each([
    ["auto", 24, 24],
    ["auto 32", 32, 32],
    ["auto 30 x 20", 30, 20],
    ["auto 30x20", 30, 20],
    ['"auto 30 × 20"', 30, 20],
  ])("%s asks for %d lines of P by %d of D, on each axis", (grid, p, d) => {
    const { roll, pitch } = parse(`grid: ${grid}`).grid;
    expect([roll, pitch]).toEqual([{ auto: { p, d } }, { auto: { p, d } }]);
  });

  it("lists are taken as they stand, for both axes", () => {
    const sweep = parse(`grid: ${LISTS}`);
    for (const axis of ["roll", "pitch"] as const)
      expect(linesOf(sweep, axis)).toEqual({ p: [5 * P_UNIT, 6 * P_UNIT, 20 * P_UNIT], d: [0, 2.5 * D_UNIT] });
  });

  it("each axis may have its own form", () => {
    const sweep = parse(`grid: {roll: ${LISTS}, pitch: auto 12 x 10}`);
    expect(linesOf(sweep, "roll").p).toHaveLength(3);
    expect(sweep.grid.pitch).toEqual({ auto: { p: 12, d: 10 } });
  });

  it("even lines are the same to the last bit, alone and for one axis", () => {
    const both = parse(EVEN);
    const { roll } = parse(`grid:\n  roll:\n${EVEN.replace("grid:\n", "").replace(/^/gm, "  ")}\n  pitch: auto`).grid;
    expect(roll).toEqual(both.grid.roll);
  });
});

describe("a grid that cannot be", () => {
  it.each([
    ["auto 4", /^sweeps\/x\.yaml:4:7 grid: 4 lines are out of range, expected 8 to 64$/],
    ["auto 24 x 65", /grid: 65 lines are out of range, expected 8 to 64$/],
    [
      "auto 24 by 24",
      /grid: expected auto, or auto with lines of P x lines of D \(auto 24 x 20\), .*found "auto 24 by 24"$/,
    ],
    ["24", /grid: expected auto, .* or roll, pitch, found 24$/],
    ["[1, 2]", /grid: expected auto, .*, found a list$/],
    ["{roll: auto}", /grid\.pitch: missing$/],
    ["{roll: auto, pitch: 3}", /grid\.pitch: expected auto, .* or the keys p, d, found 3$/],
    ["{roll: auto, pich: auto}", /grid\.pich: unknown key \(did you mean "pitch"\?\)$/],
    ["{p: auto, d: auto}", /grid\.p: expected the keys from, to, points, or a list of gains, found "auto"$/],
    [LISTS.replace("6 %", "5 %"), /grid\.p\[1\]: 5 %\/\(100 deg\/s\) again; expected rising gains, each once$/],
    [LISTS.replace("6 %", "4 %"), /grid\.p\[1\]: runs backwards, from 5 .* to 4 .*; expected the smaller first$/],
    [LISTS.replace("2.5 %/(1000 deg/s^2)", "3 m"), /grid\.d\[1\]: 3 m is a length, expected a D gain/],
    [`{roll: auto, pitch: ${LISTS.replace("6 %", "4 %")}}`, /:4:\d+ grid\.pitch\.p\[1\]: runs backwards/],
    [
      `{p: [5 %/(100 deg/s)], d: [0 %/(1000 deg/s^2), 1 %/(1000 deg/s^2)]}`,
      /grid\.p: expected 2 to 1024 gains, found 1$/,
    ],
  ])("%s gets one clear line", (grid, line) => {
    expect(complaints(`grid: ${grid}`)[0]).toMatch(line);
  });

  it("is one that is larger than a map can be, on either axis", () => {
    const line = (gain: string, from: number, points: number) =>
      `{from: ${from} ${gain}, to: 100 ${gain}, points: ${points}}`;
    const large = `{p: ${line("%/(100 deg/s)", 1, 1024)}, d: ${line("%/(1000 deg/s^2)", 0, 65)}}`;
    expect(complaints(`grid: {roll: auto, pitch: ${large}}`)[0]).toMatch(
      /grid\.pitch: 1024 x 65 are 66560 points, expected at most 65536/,
    );
  });
});

describe("a pinned tune", () => {
  const tune = "{p: 200 %/(100 deg/s), d: 1 %/(1000 deg/s^2)}";
  const pinned: [string, string] = ["scripts:", `pinned: {roll: ${tune}, pitch: ${tune}}\nscripts:`];

  it("lies inside lines that a file gives; those of the plan will reach as far as it", () => {
    expect(complaints(`grid: {roll: ${LISTS}, pitch: auto}`, pinned)).toEqual([
      expect.stringMatching(/pinned\.roll\.p: 200 .* lies outside the grid, 5 .* to 20 .*; widen the grid$/),
    ]);
  });
});

describe("gates that are skipped", () => {
  const gates = (text: string): [string, string] => ["scripts:", `gates: {${text}}\nscripts:`];

  it("count as failed where the file says so, and leave no trace where it does not", () => {
    expect(parse(EVEN, gates("skipped: fail")).skippedGates).toBe("fail");
    expect(parse(EVEN, gates("skipped: pass"))).toEqual(parse(EVEN));
    expect(complaints(EVEN, gates("skipped: maybe"))[0]).toMatch(
      /gates\.skipped: expected pass or fail, found "maybe"$/,
    );
  });
});
