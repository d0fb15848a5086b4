import { describe, expect, it } from "vitest";
import { bandsOf, contourOf, tintAt } from "../../src/charts/bands.js";
import { inside, outside } from "../../src/charts/clip.js";
import type { Point } from "../../src/charts/frame.js";
import { fieldOf, levelsOf } from "../../src/charts/levels.js";
import { plotPlace } from "../../src/charts/plot-place.js";
import { fixture } from "../report/fixture.js";

const lattice = { d: [0, 1, 2], p: [0, 1, 2, 3] };

describe("the bands of a measure", () => {
  it("put each contour where a straight line between grid points meets its level", () => {
    // v = 10 p: level 15 lies at P 1.5 for every D.
    const field = lattice.d.map(() => lattice.p.map((p) => 10 * p));
    const [band] = bandsOf(lattice, field, [15]).atLeast;
    const ring = band?.rings[0] ?? [];
    expect(ring.length).toBeGreaterThan(3);
    expect(new Set(ring.map(([, p]) => p))).toEqual(new Set([1.5, 2, 3])); // and along the frame
  });

  it("leave out what is absent and count as worst what never got there", () => {
    const field = [
      [1, 1, null, null],
      [1, 1, Number.POSITIVE_INFINITY, 1],
      [1, 1, 1, 1],
    ];
    const { defined, atLeast } = bandsOf(lattice, field, [5]);
    expect(inside(defined, [0, 2.9])).toBe(false);
    expect(inside(defined, [1.9, 0.1])).toBe(true);
    expect(inside(atLeast[0]?.rings ?? [], [1, 2])).toBe(true);
    expect(inside(atLeast[0]?.rings ?? [], [1.9, 2])).toBe(false);
  });

  it("end at the edge of the defined points: no contour runs along it", () => {
    // v = 10 d, unknown from P 2 up: level 5 is met half way between D 0 and 1, and nowhere else.
    const field = lattice.d.map((d) => lattice.p.map((p) => (p < 2 ? 10 * d : null)));
    const [band] = bandsOf(lattice, field, [5]).atLeast;
    const frame = { width: 100, height: 100, d: [0, 2], p: [0, 3] } as const;
    const lines = contourOf({ frame, lattice, field }, band?.rings ?? [], []);
    expect(lines.map((line) => line.map(([d]) => d))).toEqual([[0.5, 0.5]]);
    expect(lines.flat().map(([, p]) => p)).toEqual(expect.arrayContaining([0, 1]));
  });

  it("take a failed trial from the map as worse than any value", () => {
    const { roll } = fixture(8).axes;
    const settling = roll.measures.settling.map((row, i) => row.map((value, j) => (i === 0 && j === 0 ? null : value)));
    const absent = roll.absent.settling.map((row, i) => row.map((code, j) => (i === 0 && j === 0 ? 2 : code)));
    const axis = { measures: { ...roll.measures, settling }, absent: { ...roll.absent, settling: absent } };
    expect(fieldOf(axis, "settling")[0]?.[0]).toBe(Number.POSITIVE_INFINITY);
    expect(fieldOf(axis, "settling")[0]?.[1]).toBe(settling[0]?.[1]);
  });

  it("use the whole ramp of tints, lightest first", () => {
    expect([0, 1, 2, 3].map((passed) => tintAt(passed, 3))).toEqual([0, 2, 4, 6]);
    expect([0, 1, 2, 3, 4, 5, 6].map((passed) => tintAt(passed, 6))).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(tintAt(0, 0)).toBe(0);
  });
});

describe("the levels of a measure", () => {
  const values = (from: number, to: number) => Array.from({ length: 101 }, (_, k) => from + ((to - from) * k) / 100);

  it("are few, round, rising and inside the range, with the limit among them", () => {
    for (const [range, limit] of [
      [values(0.5, 60), 15],
      [values(20, 900), 250],
      [values(1, 5), 1.5],
      [values(0.1, 4), null],
    ] as const) {
      const levels = levelsOf(range, limit);
      expect(levels.length).toBeGreaterThan(2);
      expect(levels.length).toBeLessThanOrEqual(6);
      expect([...levels].sort((a, b) => a - b)).toEqual(levels);
      if (limit !== null) expect(levels).toContain(limit);
      for (const level of levels.filter((one) => one !== limit))
        expect([1, 1.5, 2, 3, 4, 5, 7]).toContain(Number(level.toExponential().split("e")[0]));
    }
  });

  it("keep apart from the limit, so that no two contours say nearly the same", () => {
    const levels = levelsOf(values(1, 60), 15);
    for (const level of levels.filter((one) => one !== 15)) expect(Math.abs(level / 15 - 1)).toBeGreaterThan(0.2);
  });

  it("are none where nothing is shown", () => {
    expect(levelsOf([], 15)).toEqual([]);
    expect(levelsOf([0, 0], 15)).toEqual([]);
    expect(levelsOf([3, 3, 3], 15)).toEqual([]);
  });
});

describe("lines cut at an area", () => {
  const square: Point[] = [
    [1, -1],
    [2, -1],
    [2, 1],
    [1, 1],
  ];

  it("lose what lies inside, and fall apart there", () => {
    const line = [0, 0.5, 1.2, 1.5, 1.8, 2.5, 3].map((x): Point => [x, 0]);
    expect(outside([line], [square]).map((part) => part.map(([x]) => x))).toEqual([
      [0, 0.5],
      [2.5, 3],
    ]);
  });

  it("count a hole in the area as outside", () => {
    const hole: Point[] = [
      [1.4, -0.5],
      [1.6, -0.5],
      [1.6, 0.5],
      [1.4, 0.5],
    ];
    expect(inside([square, hole], [1.5, 0])).toBe(false);
    expect(inside([square, hole], [1.2, 0])).toBe(true);
  });
});

describe("the place of a plot in its figure", () => {
  it("is read from the figure's own SVG", () => {
    const svg = '<svg viewBox="0 0 600 500" aria-hidden="true"><g fill="none" transform="translate(60,25)"><g>';
    expect(plotPlace(svg, { width: 480, height: 400 })).toEqual({ left: 0.1, top: 0.05, width: 0.8, height: 0.8 });
    expect(() => plotPlace("<svg><g>", { width: 1, height: 1 })).toThrow("a figure without");
  });
});
