// The loop itself, set up as a textbook loop, finds the textbook's ultimate gain and period.
import { describe, expect, test } from "vitest";
import { boundary, integrator, KICK, lagAndDeadTime, relative, simulated } from "./plain-loops.js";

test("without gains the plain integrator stands still, and one command moves it by one period's worth", () => {
  expect([...simulated(integrator(0), { p: 0, steps: 4 })]).toEqual([KICK, KICK, KICK, KICK]);
  const [first, second, third] = simulated(integrator(1), { p: 0.25, steps: 3 });
  expect([first, second]).toEqual([KICK, KICK]);
  expect(third / second).toBeCloseTo(0.75, 9);
});

// x[n+1] = x[n] - a x[n-k] is stable for 0 < a < 2 cos(k pi/(2k+1)) and rings with 2(2k+1) samples at the limit.
// Levin & May, Theor. Popul. Biol. 9 (1976) 178-187 (from memory; root radius recomputed).
test.each([1, 2, 3, 4, 5, 6, 8])("integrator with %i samples of latency", (k) => {
  const limit = 2 * Math.cos((k * Math.PI) / (2 * k + 1));
  const found = boundary(integrator(k), 0, 0.98 * limit, 1.02 * limit, 100 * (2 * k + 1));
  expect(relative(found.p, limit)).toBeLessThan(5e-5);
  expect(relative(found.period, 2 * (2 * k + 1))).toBeLessThan(0.002);
});

// z^2 + (a + d - 1) z - d (Jury, recomputed): beyond a + 2d = 2 it swings from sample to sample.
test.each([0, 0.25, 0.5, 0.75])("integrator without latency, d = %f: the slant edge of the triangle", (d) => {
  const last = (a: number) => Math.abs(simulated(integrator(0), { p: a, d, steps: 3000 })[2999]);
  expect(last((2 - 2 * d) * 0.99)).toBeLessThan(0.01 * KICK);
  expect(last((2 - 2 * d) * 1.01)).toBeGreaterThan(100 * KICK);
});

// z^3 - z^2 + (a + d) z - d (Jury, recomputed): a = 1 - d^2.
test.each([
  [0, 1, 6],
  [0.25, 0.9375, 5.296],
  [0.5, 0.75, 4.7668],
  [0.9, 0.19, 4.1316],
])("integrator with one sample of latency, d = %f", (d, limit, period) => {
  const found = boundary(integrator(1), d, 0.97 * limit, 1.03 * limit, 300);
  expect(relative(found.p, limit)).toBeLessThan(5e-5);
  expect(relative(found.period, period)).toBeLessThan(0.002);
});

// pi/2 + atan(w tau) + w L = pi and K = w sqrt(1 + (w tau)^2): the case (1, 0.1) is worked by hand in a published
// lecture note (K about 10.2, period about 2.02 s; quoted), the rest recomputed.
describe("integrator, lag and dead time", () => {
  test.each([
    [1, 0.1, 10.163095, 2.019974],
    [0.03, 0.004, 255.397443, 0.0703546],
    [0.02, 0.005, 207.894766, 0.065437],
    [0.05, 0.003, 336.623618, 0.0777217],
    [0.025, 0.002, 506.552129, 0.0450204],
  ])("%f s and %f s", (lag, deadTime, gain, period) => {
    const loop = lagAndDeadTime(lag, deadTime);
    const found = boundary(loop, 0, 0.97 * gain, 1.03 * gain, Math.round((12 * period) / loop.period));
    expect(relative(found.p, gain)).toBeLessThan(0.0005);
    expect(relative(found.period, period)).toBeLessThan(0.0005);
  });
});
