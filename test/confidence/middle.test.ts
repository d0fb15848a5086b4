import { describe, expect, it } from "vitest";
import { inMostDraws, middleOfSafe } from "../../src/confidence/middle.js";
import type { AxisFound } from "../../src/map/axis.js";

const factors = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, k) => from * (to / from) ** (k / (count - 1)));
const lines = { p: factors(1, 16, 33), d: factors(0.1, 1.6, 33) };
const countsWhere = (count: (p: number, d: number) => number) =>
  Uint16Array.from(lines.d.flatMap((d) => lines.p.map((p) => count(p, d))));

describe("the middle of what is safe in the draws", () => {
  it("is the geometric middle of a rectangle", () => {
    const middle = middleOfSafe(
      lines,
      countsWhere((p, d) => (p > 1.9 && p < 8.1 && d > 0.19 && d < 0.81 ? 32 : 0)),
    );
    expect(middle?.p).toBeCloseTo(4, 6);
    expect(middle?.d).toBeCloseTo(0.4, 6);
  });

  it("hardly moves where one draw more or less is safe at an edge", () => {
    const less =
      middleOfSafe(
        lines,
        countsWhere((p) => (p < 8 ? 32 : p < 10 ? 31 : 0)),
      )?.p ?? 0;
    const oneDraw =
      middleOfSafe(
        lines,
        countsWhere((p) => (p < 8 ? 32 : p < 10 ? 30 : 0)),
      )?.p ?? 0;
    expect(Math.abs(oneDraw / less - 1)).toBeLessThan(0.005);
  });

  it("does not hang on how dense the lines are", () => {
    const dense = { p: [...lines.p, ...factors(4.1, 7.9, 40)].sort((a, b) => a - b), d: lines.d };
    const safe = (p: number) => (p > 1.9 && p < 8.1 ? 7 : 0);
    const counts = Uint16Array.from(dense.d.flatMap(() => dense.p.map(safe)));
    expect((middleOfSafe(dense, counts)?.p ?? 0) / 4).toBeCloseTo(1, 1.5);
  });

  it("is nowhere where nothing is safe, or only without D", () => {
    expect(
      middleOfSafe(
        lines,
        countsWhere(() => 0),
      ),
    ).toBeNull();
    const withZero = { p: [1, 2, 4], d: [0, 0.1, 0.2] };
    expect(middleOfSafe(withZero, Uint16Array.from([5, 5, 5, 0, 0, 0, 0, 0, 0]))).toBeNull();
  });
});

describe("the ground on which the start is looked for", () => {
  const found = { field: { p: [1, 2], d: [1, 2], constraints: [] }, safe: [true, true, true, false] };
  const edge = (counts: number[], draws: number, confidence = 0.9) =>
    inMostDraws(found as unknown as AxisFound, Uint16Array.from(counts), { draws, confidence }).constraints.at(-1);

  it("takes counts within two standard deviations of the most for equal", () => {
    // 32 draws at a share of 0.97: a standard deviation of 0.965 draws
    expect([...(edge([32, 30, 29, 32], 32)?.room ?? [])].map((room) => room >= 0)).toEqual([true, true, false, true]);
  });

  it("is safe at the confidence where any place is", () => {
    const within = (counts: number[], confidence: number) =>
      [...(edge(counts, 32, confidence)?.room ?? [])].map((room) => room >= 0);
    expect(within([32, 31, 30, 0], 0.95)).toEqual([true, true, false, false]);
    expect(within([30, 29, 28, 0], 0.95)).toEqual([true, true, true, false]);
  });

  it("counts only what is safe in the model as it is written", () => {
    expect([...(edge([9, 8, 7, 32], 32)?.room ?? [])].every((room) => room >= 0)).toBe(true);
  });

  it("is that of the model as it is written where no draw is safe anywhere", () => {
    expect(edge([0, 0, 0, 0], 32)).toBeUndefined();
  });
});
