// Bandwidth and phase delay of attitude responses: the definitions of ADS-33E-PRF, 3.3.2.1 (the 45 degree and 6 dB
// wording seen in a published flight-test paper that quotes it; the phase delay formula from memory).
import { describe, expect, test } from "vitest";
import { attitudeBandwidth, attitudeResponse } from "../../src/theory/bandwidth.js";
import { frequencyGrid, sampled } from "../../src/theory/frequency.js";
import { allPole, type Complex, continuousLoop, times } from "./plain-plants.js";

const read = (attitude: (w: number) => Complex) => {
  const grid = frequencyGrid(0.02, 2000, 600);
  const found = attitudeBandwidth(grid, sampled(grid, attitude));
  if (found === null) throw new Error("the phase never reaches -180 degrees");
  return found;
};

// The first row is a helicopter's roll response as identified in that paper (it calls the axis gain-limited and prone
// to pilot-induced oscillation), the second its first-order fit; all digits recomputed.
test.each([
  ["helicopter roll", [0, 55.35, 1 / 0.155, 1], 0.051, 6.42378, 4.00364, 2.76733, 0.122903],
  ["its first-order fit", [0, 9.27, 1], 0.155, 6.28857, 3.02934, 3.55584, 0.104499],
  ["lag 0.1 s, dead time 50 ms", [0, 1, 0.1], 0.05, 13.06542, 5.55968, 8.2931, 0.0360129],
  ["lag 30 ms, dead time 4 ms", [0, 1, 0.03], 0.004, 89.30734, 26.84606, 61.21256, 0.00296706],
  ["second order with dead time", [0, 100, 14, 1], 0.02, 8.82868, 4.64608, 5.36701, 0.0601181],
  ["second order", [0, 400, 28.284, 1], 0, 20, 10.35282, 13.04441, 0.0203708],
])("%s", (_, coefficients, deadTime, reversal, byPhase, byGain, delay) => {
  const found = read(allPole(coefficients, deadTime));
  expect(found.reversal).toBeCloseTo(reversal, 4);
  expect(found.byPhase).toBeCloseTo(byPhase, 4);
  // The table's gain column is read to 3e-5: put back into the transfer function it gives 6.0004 dB, not 6.
  expect(Math.abs((found.byGain ?? 0) / byGain - 1)).toBeLessThan(4e-5);
  expect(found.bandwidth).toBe(Math.min(found.byPhase, found.byGain ?? 0));
  expect(found.phaseDelay).toBeCloseTo(delay, 6);
});

test("a straight phase has one delay by either reading: half the dead time of an integrator", () => {
  const found = read(allPole([0, 1], 0.02));
  expect(found.reversal).toBeCloseTo(Math.PI / 0.04, 6);
  expect(found.phaseDelay).toBeCloseTo(0.01, 9);
  expect(found.fittedDelay).toBeCloseTo(0.01, 9);
});

test("a bent phase has two: the line follows the mean slope, not the end point", () => {
  const found = read(allPole([0, 400, 28.284, 1], 0));
  expect(found.fittedDelay).toBeLessThan(found.phaseDelay ?? 0);
  expect(found.fittedDelay).toBeGreaterThan(0.015);
});

test("a phase that never turns round has no bandwidth by these definitions", () => {
  const grid = frequencyGrid(0.1, 100, 200);
  expect(attitudeBandwidth(grid, sampled(grid, allPole([0, 1, 0.1], 0)))).toBeNull();
});

describe("attitude under a closed rate loop", () => {
  // P/(s (s (1 + tau s) + D s + P)) and, with I on the error, (P s + I) over the same with I: algebra.
  const lag = 0.03;
  const pieces = continuousLoop(allPole([0, 1, lag], 0), 50);

  test.each([[{ p: 12, i: 0, d: 0 }], [{ p: 12, i: 40, d: 0.4 }]])("P, I and D as %o", ({ p, i, d }) => {
    const found = attitudeResponse(pieces, { p, i, d });
    const wanted = sampled(pieces.frequencies, (w) => {
      const closed = allPole([0, 0, i, p, 1 + d, lag], 0)(w);
      return times(times(closed, [i, p * w]), [0, w]);
    });
    pieces.frequencies.forEach((w, k) => {
      expect(found.re[k] * w).toBeCloseTo(wanted.re[k] * w, 9);
      expect(found.im[k] * w).toBeCloseTo(wanted.im[k] * w, 9);
    });
  });
});
