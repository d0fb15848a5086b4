import { describe, expect, it } from "vitest";
import { studentQuantile } from "../../src/base/student.js";
import { leastSquares } from "../../src/estimate/regression.js";

describe("least squares", () => {
  // F.J. Anscombe, Graphs in Statistical Analysis, The American Statistician 27 (1973), first set and the output printed
  // beside it: intercept 3.00, slope 0.500, standard error of the slope 0.118 (from memory; longer digits recomputed).
  const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
  const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
  const fit = leastSquares(
    x.map((one) => [1, one]),
    y,
  );

  it("gives coefficients and their errors", () => {
    expect(fit?.freedom).toBe(9);
    expect(fit?.coefficients[0]).toBeCloseTo(3.000091, 6);
    expect(fit?.coefficients[1]).toBeCloseTo(0.500091, 6);
    expect(fit?.errors[0]).toBeCloseTo(1.124747, 6);
    expect(fit?.errors[1]).toBeCloseTo(0.117906, 6);
  });

  it("gives the interval of a new observation", () => {
    // residual standard error 1.236603; mean of x 9, sum of squares 110: t 2.262157 s sqrt(1 + 1/11 + (x - 9)^2/110)
    const { value, half } = fit?.predict([1, 14]) ?? { value: Number.NaN, half: Number.NaN };
    expect(value).toBeCloseTo(3.000091 + 14 * 0.500091, 4);
    expect(half).toBeCloseTo(2.262157 * 1.236603 * Math.sqrt(1 + 1 / 11 + 25 / 110), 3);
  });

  it("is none where columns say the same, or nothing is left to tell an error from", () => {
    expect(
      leastSquares(
        x.map((one) => [1, one, 2 * one]),
        y,
      ),
    ).toBe(null);
    expect(
      leastSquares(
        x.map(() => [1, 3]),
        y,
      ),
    ).toBe(null);
    expect(
      leastSquares(
        [
          [1, 2],
          [1, 3],
          [1, 4],
        ],
        [1, 2, 3.5],
      ),
    ).toBe(null);
    expect(leastSquares([], [])).toBe(null);
  });
});

describe("Student's t, 97.5 %", () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2: seen quoted in every table of t.
  it.each([
    [2, 4.303],
    [3, 3.182],
    [5, 2.571],
    [10, 2.228],
    [30, 2.042],
    [100, 1.984],
  ])("with %i degrees of freedom: %f", (freedom, quantile) => {
    expect(Math.abs(studentQuantile(freedom) / quantile - 1)).toBeLessThan(0.01);
  });
});
