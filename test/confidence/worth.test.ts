// What knowing a number is worth, on functions of which the answer is known: Ishigami and Homma 1990 (first-order shares of
// variance 0.3139, 0.4424 and 0; closed forms in Saltelli et al. 2008, from memory, recomputed), and a threshold.
import { describe, expect, it } from "vitest";
import { drawnValues } from "../../src/airframe/draw-values.js";
import { at } from "../../src/base/at.js";
import { hypercubeColumn } from "../../src/base/latin-hypercube.js";
import type { Spread } from "../../src/base/spread.js";
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

  // Standard normal numbers; a point is safe where x - y stays below a threshold of its own, 15 of them a unit. In the mean over
  // what is known, 15 * 1.645 points are gained per unit by which the standard deviation of x - y falls.
  const gainOf = (before: number, after: number) => 15 * 1.645 * (before - after);
  it.each([
    ["that go with each other: what x tells of y counts", 0.8, 0, gainOf(Math.sqrt(0.4), 0.6), 0],
    ["that are opposite: known, x tells most of y", -0.8, 0, gainOf(Math.sqrt(3.6), 0.6), 0],
    ["each for itself", 0, 0, gainOf(Math.SQRT2, 1), 0],
    [
      "of which x goes with z, that enters nothing itself",
      0,
      0.9,
      gainOf(Math.SQRT2, 1),
      gainOf(Math.SQRT2, Math.sqrt(2 - 0.81)),
    ],
  ])("counts numbers %s", (_, withY, withZ, worthOfX, worthOfZ) => {
    const spread = (key: string): Spread => ({ key, nominal: 0, law: "normal", size: 2, least: -99, most: 99 });
    const pairs = [
      { one: "x", other: "y", correlation: withY },
      { one: "x", other: "z", correlation: withZ },
    ];
    const valuesOf = drawnValues([spread("x"), spread("y"), spread("z")], pairs, {
      count: WORTH_DRAWS,
      seed: 1,
      purpose: "worth",
    });
    const draws = Array.from({ length: WORTH_DRAWS }, (_, row) => valuesOf(row, 0));
    const thresholds = Array.from({ length: 150 }, (_, k) => -5 + k / 15);
    const safe = draws.map((values) =>
      Uint8Array.from(thresholds, (limit) => (at(values, 0) - at(values, 1) < limit ? 1 : 0)),
    );
    const columns = [0, 1, 2].map((key) => draws.map((values) => at(values, key)));
    const [x, , z] = worthOf(safe, columns, 0.95);
    for (const [found, expected] of [
      [x, worthOfX],
      [z, worthOfZ],
    ] as const)
      expect(Math.abs((found?.gain ?? Number.NaN) - expected)).toBeLessThan(1.5 + 0.15 * expected);
  });
});
