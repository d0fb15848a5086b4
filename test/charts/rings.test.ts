import { describe, expect, it } from "vitest";
import type { Point } from "../../src/charts/frame.js";
import { type Belongs, rings } from "../../src/charts/rings.js";

const lattice = { d: [0, 1, 2, 3, 4], p: [10, 20, 30, 40, 50] };
const halfWay = () => 0.5;

/** Signed area: positive for a counter-clockwise ring (shoelace formula). */
const area = (ring: readonly Point[]): number =>
  ring.reduce((sum, [x, y], k) => {
    const [nextX, nextY] = ring[(k + 1) % ring.length] as Point;
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);

const total = (belongs: Belongs) => rings(lattice, belongs, halfWay).reduce((sum, ring) => sum + area(ring), 0);

describe("outlines of a set of grid points", () => {
  it("gives nothing for nothing and the whole frame for everything", () => {
    expect(rings(lattice, () => false, halfWay)).toEqual([]);
    expect(total(() => true)).toBeCloseTo(4 * 40, 10);
  });

  it("draws a diamond half way to the neighbours about a single point", () => {
    const [ring = [], ...others] = rings(lattice, (i, j) => i === 2 && j === 2, halfWay);
    expect(others).toEqual([]);
    expect(new Set(ring.map(String))).toEqual(new Set(["2,25", "2.5,30", "2,35", "1.5,30"]));
    expect(area(ring)).toBeCloseTo(0.5 * 1 * 10, 10);
  });

  it("leaves a hole open by turning it the other way", () => {
    const found = rings(lattice, (i, j) => !(i === 2 && j === 2), halfWay);
    expect(found.map((ring) => Math.sign(area(ring))).sort()).toEqual([-1, 1]);
    expect(found.reduce((sum, ring) => sum + area(ring), 0)).toBeCloseTo(160 - 5, 10);
  });

  it("keeps points that touch only at a corner apart", () => {
    const diagonal = (i: number, j: number) => (i === 1 && j === 1) || (i === 2 && j === 2);
    expect(rings(lattice, diagonal, halfWay)).toHaveLength(2);
  });

  it("puts the outline where the crossing says", () => {
    const found = rings(
      lattice,
      (_, j) => j < 2,
      (_i, _j, along) => (along === "p" ? 0.25 : 0.5),
    );
    expect(Math.max(...found.flat().map(([, p]) => p))).toBeCloseTo(20 + 0.25 * 10, 10);
  });

  it("gives nothing for a set that its crossings shrink to a point or to a line", () => {
    const shrunk = (belongs: Belongs) => rings(lattice, belongs, (i, j) => (belongs(i, j) ? 0 : 1));
    for (const place of [2, 0]) expect(shrunk((i, j) => i === place && j === place)).toEqual([]);
    expect(shrunk((i, j) => i === 2 && j > 0 && j < 4)).toEqual([]);
    expect(shrunk((i) => i === 4)).toEqual([]);
  });

  it("leaves out the lines that lead to ground", () => {
    const [ring = [], ...others] = rings(
      lattice,
      (i, j) => (i < 2 && j < 2) || (j === 1 && i < 4),
      (i, j) => ((i < 2 && j < 2) || (j === 1 && i < 4) ? 0 : 1),
    );
    expect(others).toEqual([]);
    expect(new Set(ring.map(String))).toEqual(new Set(["0,10", "1,10", "2,20", "1,20", "0,20"]));
  });

  it("covers the frame once when a set and its complement are laid together", () => {
    const checker: Belongs = (i, j) => (i * 7 + j * 3) % 5 < 2;
    const both = total(checker) + total((i, j) => !checker(i, j));
    // In a saddle both sets keep their corners apart: half the square, 5 of its 10, lies in neither.
    const is = (i: number, j: number) => checker(i, j);
    const squares = [0, 1, 2, 3].flatMap((i) => [0, 1, 2, 3].map((j) => [i, j] as const));
    const saddles = squares.filter(
      ([i, j]) => is(i, j) === is(i + 1, j + 1) && is(i + 1, j) === is(i, j + 1) && is(i, j) !== is(i + 1, j),
    );
    expect(saddles.length).toBeGreaterThan(0);
    expect(both).toBeCloseTo(160 - 5 * saddles.length, 10);
  });
});
