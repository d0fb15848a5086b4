// McKay, Beckman and Conover 1979: one value in each stratum of each column; a mean of a sum of monotone functions varies
// less than with as many independent draws.
import { expect, it } from "vitest";
import { hypercubeColumn, redrawnInStratum } from "../../src/base/latin-hypercube.js";
import { normalQuantile } from "../../src/base/normal.js";
import { stream, uniform } from "../../src/base/random.js";

it("has one value in every stratum, whatever the count", () => {
  for (const count of [1, 2, 7, 64, 1024]) {
    const strata = hypercubeColumn(count, 1, "motor.kv").map((value) => Math.floor(value * count));
    expect(strata.sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, k) => k));
  }
});

it("gives a column by its own keys alone, and columns of other keys in another order", () => {
  const column = hypercubeColumn(64, 1, "motor.kv");
  expect(hypercubeColumn(64, 1, "motor.kv")).toEqual(column);
  for (const other of [hypercubeColumn(64, 1, "motor.resistance"), hypercubeColumn(64, 2, "motor.kv")]) {
    const mean = 0.5;
    const correlation = column.reduce((sum, x, k) => sum + (x - mean) * ((other[k] ?? 0) - mean), 0) / (64 / 12);
    expect(Math.abs(correlation)).toBeLessThan(3 / Math.sqrt(64));
    expect(correlation).not.toBe(0);
  }
});

it("draws again within the stratum", () => {
  for (let attempt = 1; attempt < 50; attempt++)
    expect(Math.floor(redrawnInStratum(0.37, 64, 3, attempt, "x") * 64)).toBe(Math.floor(0.37 * 64));
});

it("estimates the mean of a monotone function better than independent draws", () => {
  const f = (x: number, y: number) => normalQuantile(x) + 0.5 * normalQuantile(y) ** 3;
  const meanOf = (points: readonly (readonly [number, number])[]) =>
    points.reduce((sum, [x, y]) => sum + f(x, y), 0) / points.length;
  const rounds = Array.from({ length: 100 }, (_, seed) => {
    const [x, y] = [hypercubeColumn(64, seed, "x"), hypercubeColumn(64, seed, "y")];
    const source = stream("independent", seed);
    const independent = x.map(() => [uniform(source), uniform(source)] as const);
    return [meanOf(x.map((value, k) => [value, y[k] ?? 0.5] as const)), meanOf(independent)] as const;
  });
  const spread = (of: 0 | 1) => Math.sqrt(rounds.reduce((sum, round) => sum + round[of] ** 2, 0) / rounds.length);
  expect(spread(0)).toBeLessThan(0.5 * spread(1));
});
