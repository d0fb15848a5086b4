// What knowing a number is worth, on functions of which the answer is known: Ishigami and Homma 1990 (first-order shares of
// variance 0.3139, 0.4424 and 0; closed forms in Saltelli et al. 2008, from memory, recomputed), and a threshold.
import { describe, expect, it } from "vitest";
import { at } from "../../src/base/at.js";
import { hypercubeColumn } from "../../src/base/latin-hypercube.js";
import { WORTH_DRAWS, worthOf } from "../../src/confidence/worth.js";

const columns = (count: number, names: readonly string[], scale: (u: number) => number) =>
  names.map((name) => hypercubeColumn(count, 1, name).map(scale));

describe("what knowing a number is worth", () => {
  it("finds the number that decides, and no difference in one that does not", () => {
    const [x, y, z] = columns(WORTH_DRAWS, ["x", "y", "z"], (u) => 2 * u - 1) as [number[], number[], number[]];
    // Point k is safe where 1.5 x + 0.5 y stays below a threshold of its own.
    const thresholds = Array.from({ length: 60 }, (_, k) => -2 + k / 15);
    const safe = x.map((value, draw) =>
      Uint8Array.from(thresholds, (limit) => (1.5 * value + 0.5 * at(y, draw) < limit ? 1 : 0)),
    );
    const [first, second, third] = worthOf(safe, [x, y, z], 0.95);
    // Known x leaves 0.5 y: the 95 % point is at 1.5 x + 0.45, in the mean 0.45; unknown, at about 1.6. 15 points a unit.
    expect(first?.gain).toBeGreaterThan(14);
    expect(first?.gain).toBeLessThan(19);
    expect(second?.gain).toBeGreaterThan(second?.error ?? 0);
    expect(second?.gain).toBeLessThan(5);
    expect(Math.abs(third?.gain ?? 9)).toBeLessThan(2 * (third?.error ?? 0));
  });

  it("ranks Ishigami's numbers as their first-order shares do", () => {
    const [x1, x2, x3] = columns(16 * WORTH_DRAWS, ["x1", "x2", "x3"], (u) => Math.PI * (2 * u - 1)) as [
      number[],
      number[],
      number[],
    ];
    const value = (k: number) =>
      Math.sin(at(x1, k)) + 7 * Math.sin(at(x2, k)) ** 2 + 0.1 * at(x3, k) ** 4 * Math.sin(at(x1, k));
    const values = x1.map((_, k) => value(k));
    // The share of variance from the same parting that worthOf uses: 16 parts by rank.
    const share = (column: readonly number[]) => {
      const ranked = column.map((_, k) => k).sort((a, b) => at(column, a) - at(column, b));
      const size = ranked.length / 64;
      const means = Array.from({ length: 64 }, (_, part) => {
        const members = ranked.slice(part * size, (part + 1) * size);
        return members.reduce((sum, k) => sum + at(values, k), 0) / size;
      });
      const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
      const variance = values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length;
      return means.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 64 / variance;
    };
    expect(share(x1)).toBeCloseTo(0.3139, 1);
    expect(share(x2)).toBeCloseTo(0.4424, 1);
    expect(share(x3)).toBeLessThan(0.02);
    const thresholds = Array.from({ length: 100 }, (_, k) => -10 + k / 4);
    const safe = values.map((one) => Uint8Array.from(thresholds, (limit) => (one < limit ? 1 : 0)));
    const [w1, w2, w3] = worthOf(safe, [x1, x2, x3], 0.95);
    // x3 alone moves no mean, but the tail: it is worth something at 95 %, as its total share 0.2437 says.
    expect(w1?.gain).toBeGreaterThan(w1?.error ?? 0);
    expect(w2?.gain).toBeGreaterThan(w2?.error ?? 0);
    expect(w3?.gain).toBeGreaterThan(w3?.error ?? 0);
  });
});
