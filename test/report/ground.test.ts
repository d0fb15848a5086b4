import { describe, expect, it } from "vitest";
import { VERDICTS } from "../../src/base/measures.js";
import { verdictCrossing } from "../../src/charts/crossings.js";
import { frameOf, type Point, toPixel } from "../../src/charts/frame.js";
import { marksOver } from "../../src/charts/marks.js";
import { innerOutline, terrainOf } from "../../src/charts/terrain.js";
import { fixture } from "./fixture.js";

const map = fixture();
const frame = frameOf(map.axes.roll.grid, 520, 420);

describe("the ground of a map", () => {
  it("draws the sustained boundary through every point the trials narrowed down", () => {
    const outline = terrainOf(map, map.axes.roll).atLeast.sustained.flat();
    const refined = map.axes.roll.boundary.sustained.filter((point) => point.p !== null);
    expect(refined.length).toBeGreaterThan(20);
    for (const { d, p } of refined)
      expect(
        outline.some(([x, y]) => Math.abs(x - d) < 1e-9 && Math.abs(y - (p as number)) < 1e-9),
        `D ${d}`,
      ).toBe(true);
  });

  it("puts a border where the measure passes its limit between two points", () => {
    const axis = map.axes.roll;
    const i = 8;
    const j = map.axes.roll.grid.p.findIndex(
      (_, k) => axis.verdict[i]?.[k] === "loose" && axis.verdict[i]?.[k + 1] === "clean",
    );
    const share = verdictCrossing(map, axis)(i, j, "p");
    const [below, above] = [
      axis.measures.wobbleAngle[i]?.[j] as number,
      axis.measures.wobbleAngle[i]?.[j + 1] as number,
    ];
    expect(below + share * (above - below)).toBeCloseTo(map.limits.wobbleAngle as number, 10);
  });

  it("leaves the frame out of the shore", () => {
    const line = innerOutline(frame, terrainOf(map, map.axes.pitch).atLeast.sustained);
    for (const piece of line)
      for (let k = 1; k < piece.length; k++) {
        const [a, b] = [piece[k - 1] as Point, piece[k] as Point];
        expect(a[1] === b[1] && a[1] === frame.p[1], "along the top").toBe(false);
        expect(a[0] === b[0] && a[0] === frame.d[1], "along the right").toBe(false);
      }
  });

  it("puts the frame's corners at the ends of the swept range", () => {
    expect(toPixel(frame, [0, 6])).toEqual([0, 420]);
    expect(toPixel(frame, [9, 70])).toEqual([520, 0]);
  });
});

describe("the marks of a verdict", () => {
  const square: Point[] = [
    [20, 20],
    [80, 20],
    [80, 80],
    [20, 80],
  ];
  const hole: Point[] = [
    [40, 40],
    [60, 40],
    [60, 60],
    [40, 60],
  ];

  it.each(VERDICTS)("of %s stay on its ground and out of its holes", (verdict) => {
    const marks = marksOver({ width: 100, height: 100, rings: [square, hole] }, verdict);
    expect(marks.length).toBeGreaterThan(3);
    for (const [x, y] of marks.flat()) {
      expect(Math.min(x, y)).toBeGreaterThanOrEqual(19.9);
      expect(Math.max(x, y)).toBeLessThanOrEqual(80.1);
      expect(Math.max(Math.abs(x - 50), Math.abs(y - 50))).toBeGreaterThanOrEqual(9.9);
    }
  });

  it("differ from verdict to verdict", () => {
    const drawn = VERDICTS.map((verdict) =>
      JSON.stringify(marksOver({ width: 100, height: 100, rings: [square] }, verdict)),
    );
    expect(new Set(drawn).size).toBe(VERDICTS.length);
  });
});
