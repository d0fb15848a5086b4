// The fit itself: against the closed form where everything is linear, and on responses made of theory and noise.
import { Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { at } from "../../src/base/at.js";
import { readDocument } from "../../src/files/read.js";
import { fitted } from "../../src/fit/fitted.js";
import { type Likelihood, likeliest } from "../../src/fit/least-squares.js";
import { lnNormalBelow } from "../../src/fit/normal-log.js";
import { posteriorOf } from "../../src/fit/posterior.js";
import { unknownsOf } from "../../src/fit/unknowns.js";
import { flightOf, measured, normalScores } from "./measured.js";

const sandpiper = unknownsOf(readDocument("models/sandpiper-r1.yaml"), 0.1);
const KEYS = sandpiper.spreads.map(({ key }) => key);
const AXES = ["roll", "pitch"] as const;
const numberOf = (numbers: ReturnType<typeof fitted>["numbers"], key: string) =>
  at(
    numbers.filter((one) => one.key === key),
    0,
  );

/** y = A x + noise of unit deviation, x standard normal before. */
const linear = (a: readonly (readonly number[])[], y: readonly number[]): Likelihood => ({
  scores: at(a, 0).length,
  groups: [{ name: "y", from: 0, to: y.length }],
  residuals: (scores) =>
    Float64Array.from(y, (value, row) => at(a, row).reduce((sum, slope, k) => sum + slope * at(scores, k), -value)),
});

it("is the closed form where the measurement is linear (C.M. Bishop, Pattern Recognition, 2.116; from memory)", () => {
  const a = [
    [3, 1, 0],
    [0, 2, 0.5],
    [1, -1, 0],
    [2, 2, 0.1],
    [0.3, 0, 4],
  ];
  const y = [2, -1, 0.4, 1.1, 3];
  const found = likeliest(linear(a, y), new Float64Array(5).fill(1), new Float64Array(3));
  const design = new Matrix(a);
  const information = Matrix.add(design.transpose().mmul(design), Matrix.eye(3));
  const wanted = design.transpose().mmul(Matrix.columnVector(y));
  // (1 + A'A) mean = A'y, and (1 + A'A) covariance = 1
  const mean = information.mmul(Matrix.columnVector([...found.scores])).getColumn(0);
  for (const [k, value] of mean.entries()) expect(value).toBeCloseTo(wanted.get(k, 0), 5);
  const one = information.mmul(found.covariance);
  for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) expect(one.get(i, j)).toBeCloseTo(Number(i === j), 6);
});

describe("errors that promise too much", () => {
  const slopes = Array.from({ length: 60 }, (_, k) => [4, k % 2 === 0 ? 2 : -2]);
  const noise = normalScores(60, "misfit");

  it("widen what is found by as much as the misfit exceeds them", () => {
    const y = Array.from(noise, (value, k) => at(at(slopes, k), 0) + 5 * value);
    const { covariance, misfits } = posteriorOf(linear(slopes, y), () => []);
    expect(at(misfits, 0).perFreedom).toBeGreaterThan(15);
    // 60 measurements of slope 4 with five times the error
    expect(Math.sqrt(covariance.get(0, 0))).toBeGreaterThan(0.8 * (5 / (4 * Math.sqrt(60))));
  });

  it("narrow nothing where residuals are smaller than they", () => {
    const y = Array.from(noise, (value, k) => at(at(slopes, k), 0) + 0.2 * value);
    const { covariance } = posteriorOf(linear(slopes, y), () => []);
    expect(Math.sqrt(covariance.get(0, 0))).toBeCloseTo(1 / Math.sqrt(1 + 16 * 60), 4);
  });

  it("give way to the scatter between parts of the log", () => {
    const y = slopes.map((row) => at(row, 0));
    const likelihood = linear(slopes, y);
    const [group] = likelihood.groups;
    const apart = [3, -3].map((by) => likelihood.residuals(new Float64Array([1, 0])).map((r) => r + 4 * by));
    const { covariance } = posteriorOf(likelihood, () => [{ group, residuals: apart }]);
    // the parts put the first score 3 above and 3 below: their mean is off by 3
    expect(Math.sqrt(covariance.get(0, 0))).toBeGreaterThan(0.9);
    expect(Math.sqrt(covariance.get(1, 1))).toBeLessThan(0.1);
  });

  it("never make anything wider than it was, nor a surprise narrow", () => {
    const y = slopes.map((row) => 5.5 * at(row, 0));
    const { covariance, surprise } = posteriorOf(linear(slopes, y), () => []);
    // one of two directions lies 5.5 standard deviations out
    expect(surprise).toBeCloseTo((5.5 * 5.5) / 2, 0);
    expect(covariance.get(0, 0)).toBeLessThanOrEqual(1 + 1e-9);
    expect(covariance.get(0, 0)).toBeGreaterThan(1.5 / (1 + 16 * 60));
  });
});

describe("a response of theory and noise", () => {
  it("leads back to the craft, narrower than before", () => {
    let [inside, all] = [0, 0];
    for (const seed of [1, 2, 3]) {
      const truth = normalScores(KEYS.length, "truth", seed);
      const fit = fitted(sandpiper, [
        flightOf(AXES.map((axis) => measured(sandpiper, truth, axis, { error: 0.05, seed }))),
      ]);
      for (const [k, score] of truth.entries()) {
        const { mean, deviation } = at(fit.scores, k);
        all++;
        if (Math.abs(score - mean) < 1.96 * deviation) inside++;
      }
      expect(numberOf(fit.numbers, "motor.resistance").learnt).toBeGreaterThan(0.3);
    }
    expect(inside / all).toBeGreaterThan(0.88);
  });

  it("leaves a number that it says nothing about exactly as it was", () => {
    const truth = normalScores(KEYS.length, "truth", 4);
    const { numbers } = fitted(sandpiper, [flightOf([measured(sandpiper, truth, "roll", { error: 0.05, seed: 4 })])]);
    for (const key of ["sensing.noise", "wash.rms", "motor.no_load_current"]) {
      const { before, after } = numberOf(numbers, key);
      expect(after).toEqual(before);
    }
  });

  it("is not taken from where a sign is wrong, and says so", () => {
    const truth = new Float64Array(KEYS.length);
    const turned = measured(sandpiper, truth, "roll", { error: 0.05, seed: 1, bent: (re, im) => [-re, -im] });
    const { numbers, setAside } = fitted(sandpiper, [flightOf([turned])]);
    expect(setAside.map(({ turned: is }) => is)).toEqual([true]);
    for (const { before, after } of numbers) expect(after).toEqual(before);
  });

  it("is not taken from where it is noise alone, whatever errors it claims", () => {
    const truth = new Float64Array(KEYS.length);
    const noise = normalScores(200, "noise");
    let k = 0;
    const alone = measured(sandpiper, truth, "roll", {
      error: 0.05,
      seed: 1,
      bent: (re, im) => {
        const size = Math.sqrt(re * re + im * im);
        return [size * at(noise, k++), size * at(noise, k++)];
      },
    });
    const { numbers, setAside } = fitted(sandpiper, [flightOf([alone])]);
    expect(setAside).toHaveLength(1);
    for (const { before, after } of numbers) expect(after).toEqual(before);
  });
});

it.each([
  // ln of Abramowitz and Stegun 1964, table 26.1 and 26.2
  [0, Math.log(0.5)],
  [1, Math.log(0.841344746068543)],
  [-3, Math.log(1 - 0.99865010196837)],
  [-5, -15.064998393988725],
])("ln of the share below %s", (x, ln) => {
  expect(lnNormalBelow(x)).toBeCloseTo(ln, 9);
});
