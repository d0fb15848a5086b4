// The ultimate gain and period of textbook loops.
import { describe, expect, test } from "vitest";
import { boundaryCurve, stableIntervals, ultimateGain } from "../../src/theory/boundary.js";
import { isStable } from "../../src/theory/margins.js";
import type { LoopPieces } from "../../src/theory/pieces.js";
import { allPole, continuousLoop, sampledIntegrator, sampledIntegratorAndLag, times } from "./plain-plants.js";

const ALL = { from: 0, to: 1e6 };
const first = (pieces: LoopPieces, d = 0) => {
  const [point] = ultimateGain(pieces, d, 0, ALL);
  return { gain: point.p, frequency: point.frequency, period: (2 * Math.PI) / point.frequency };
};
const relative = (value: number, wanted: number) => Math.abs(value / wanted - 1);

// Routh-Hurwitz on s(T1 s + 1)(T2 s + 1) + D s + P: P = (1 + D)(1/T1 + 1/T2) at w^2 = (1 + D)/(T1 T2). Recomputed.
describe("integrator and two lags, D on the measured rate", () => {
  test.each([
    [0.03, 0.005, 233.3333, 81.64966],
    [0.02, 0.002, 550, 158.1139],
  ])("lags of %f and %f s, no D: the tabled gain and frequency", (t1, t2, gain, frequency) => {
    const found = first(continuousLoop(allPole([0, 1, t1 + t2, t1 * t2], 0), frequency));
    expect(relative(found.gain, gain)).toBeLessThan(2e-7);
    expect(relative(found.frequency, frequency)).toBeLessThan(4e-7);
  });

  test.each([0.3, 1, 4])("D = %f raises both by its own law", (d) => {
    const [t1, t2] = [0.03, 0.005];
    const found = first(continuousLoop(allPole([0, 1, t1 + t2, t1 * t2], 0), 81.65), d);
    expect(relative(found.gain, (1 + d) * (1 / t1 + 1 / t2))).toBeLessThan(1e-7);
    expect(relative(found.frequency, Math.sqrt((1 + d) / (t1 * t2)))).toBeLessThan(1e-7);
  });

  test("the whole boundary curve is that straight line", () => {
    const [t1, t2] = [0.03, 0.005];
    const points = boundaryCurve(continuousLoop(allPole([0, 1, t1 + t2, t1 * t2], 0), 81.65), 0);
    expect(points.length).toBeGreaterThan(500);
    for (const { p, d, frequency } of points) {
      expect(d).toBeCloseTo(frequency ** 2 * t1 * t2 - 1, 6);
      expect(relative(p, frequency ** 2 * (t1 + t2))).toBeLessThan(1e-9);
    }
  });
});

// pi/2 + atan(w tau) + w L = pi and K = w sqrt(1 + (w tau)^2): the case (1, 0.1) is worked by hand in a published
// lecture note (K about 10.2, period about 2.02 s; quoted), the rest recomputed.
test.each([
  [1, 0.1, 10.163095, (2 * Math.PI) / 3.110528],
  [1, 0.2, 5.159607, 2.903232],
  [1, 0.5, 2.14967, 4.809018],
  [1, 1, 1.134915, 7.303197],
  [0.03, 0.004, 255.397443, 0.0703546],
  [0.02, 0.005, 207.894766, 0.065437],
  [0.05, 0.003, 336.623618, 0.0777217],
  [0.025, 0.002, 506.552129, 0.0450204],
])("integrator, lag of %f s and dead time of %f s", (lag, deadTime, gain, period) => {
  const found = first(continuousLoop(allPole([0, 1, lag], deadTime), (2 * Math.PI) / period));
  expect(relative(found.gain, gain)).toBeLessThan(4e-7);
  expect(relative(found.period, period)).toBeLessThan(1e-6);
});

// The same loop with a second-order Butterworth low-pass in it. Recomputed.
test.each([
  [0.03, 0.004, 100, 165.063419, 0.0890887],
  [0.03, 0.004, 50, 122.201477, 0.1054112],
  [0.03, 0.002, 100, 239.90734, 0.0727501],
])("lag %f s, dead time %f s and a low-pass of %f Hz", (lag, deadTime, cutoff, gain, period) => {
  const corner = 2 * Math.PI * cutoff;
  const [loop, filter] = [allPole([0, 1, lag], deadTime), allPole([1, Math.SQRT2 / corner, 1 / corner ** 2], 0)];
  const found = first(continuousLoop((w) => times(loop(w), filter(w)), (2 * Math.PI) / period));
  expect(relative(found.gain, gain)).toBeLessThan(1e-8);
  expect(relative(found.period, period)).toBeLessThan(1e-6);
});

// x[n+1] = x[n] - a x[n-k] is stable for 0 < a < 2 cos(k pi/(2k+1)); at the limit it rings with 2(2k+1) samples.
// Levin & May, Theor. Popul. Biol. 9 (1976) 178-187 (from memory; root radius recomputed).
test.each([0, 1, 2, 3, 4, 5, 6, 8])("sampled integrator with %i samples of delay", (k) => {
  const pieces = sampledIntegrator(k);
  const limit = 2 * Math.cos((k * Math.PI) / (2 * k + 1));
  const found = first(pieces);
  expect(relative(found.gain, limit)).toBeLessThan(1e-9);
  expect(relative(found.period, 2 * (2 * k + 1))).toBeLessThan(1e-9);
  const [interval, ...more] = stableIntervals(pieces, 0, 0, { from: 0.001, to: 5 });
  expect(more).toEqual([]);
  expect(interval.from).toBe(0.001);
  expect(relative(interval.to, limit)).toBeLessThan(1e-9);
});

// z^2 + (a + d - 1) z - d: Jury asks |d| < 1 and a + 2d < 2 (and a > 0). Recomputed.
describe("sampled integrator with D and no delay: a triangle", () => {
  const pieces = sampledIntegrator(0);

  test.each([-0.9, -0.5, 0, 0.3, 0.7, 0.95])("d = %f: it ends on the slant edge, from sample to sample", (d) => {
    const points = ultimateGain(pieces, d, 0, ALL);
    expect(points.length).toBe(1);
    expect(relative(points[0].p, 2 - 2 * d)).toBeLessThan(1e-9);
    expect(points[0].frequency).toBeCloseTo(Math.PI, 12);
  });

  test.each([
    [0.999, -0.999, true],
    [0.999, -1.001, false],
    [3.9, -0.999, true],
    [3.9, -1.001, false],
    [0.001, 0.998, true],
    [0.006, 0.998, false],
    [1.199, 0.4, true],
    [1.201, 0.4, false],
  ])("a = %f, d = %f: stable is %s", (a, d, stable) => {
    expect(isStable(pieces, { p: a, d, i: 0 })).toBe(stable);
  });
});

// z^3 - z^2 + (a + d) z - d: Jury gives a = 1 - d^2. Periods recomputed.
describe("sampled integrator with D and one sample of delay", () => {
  const pieces = sampledIntegrator(1);

  test.each([
    [0, 1, 6],
    [0.25, 0.9375, 5.296],
    [0.5, 0.75, 4.7668],
    [0.9, 0.19, 4.1316],
  ])("d = %f", (d, gain, period) => {
    const found = first(pieces, d);
    expect(found.gain).toBeCloseTo(gain, 9);
    expect(relative(found.period, period)).toBeLessThan(2e-5);
  });

  test("the boundary curve is that parabola at every frequency", () => {
    const points = boundaryCurve(pieces, 0).filter(({ d }) => Math.abs(d) < 1);
    expect(points.length).toBeGreaterThan(50);
    for (const { p, d } of points) expect(p).toBeCloseTo(1 - d * d, 9);
  });
});

// K/(s(s + 1)) behind a zero-order hold: K. Ogata, Discrete-Time Control Systems, 2nd ed., ch. 4 prints 2.3925 for one
// second from four-digit coefficients (from memory); the digits here are recomputed.
test.each([
  [1, 2.392211, 1.32439],
  [0.1, 20.338926, 4.435712],
  [0.5, 4.361994, 1.926335],
  [2, 1.455679, 0.916223],
])("integrator and lag behind a hold of %f s", (period, gain, frequency) => {
  const found = first(sampledIntegratorAndLag(period));
  expect(relative(found.gain, gain)).toBeLessThan(4e-7);
  expect(relative(found.frequency, frequency)).toBeLessThan(4e-6);
});
