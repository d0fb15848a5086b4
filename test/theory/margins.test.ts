// Gain and phase margins against loops whose margins are known in closed form.
import { describe, expect, test } from "vitest";
import { marginsOf } from "../../src/theory/margins.js";
import { allPole, continuousLoop, sampledIntegrator } from "./plain-plants.js";

const decibels = (ratio: number) => 20 * Math.log10(ratio);
const only = (p: number) => ({ p, i: 0, d: 0 });

// |K/s| = 1 at w = K, phase -90 deg - K L there; phase -180 deg at w = pi/(2L). Algebra.
describe("integrator K with dead time L", () => {
  const [gain, deadTime] = [60, 0.01];
  const margins = marginsOf(continuousLoop(allPole([0, 1], deadTime), 100), only(gain));

  test("the gain may rise by pi/(2KL), and fall at will", () => {
    expect(margins.stable).toBe(true);
    expect(margins.gainUp).toBeCloseTo(decibels(Math.PI / (2 * gain * deadTime)), 6);
    expect(margins.gainDown).toBeNull();
  });

  test("the phase may lag by 90 degrees less KL", () => {
    expect(margins.phase).toBeCloseTo(90 - (180 / Math.PI) * gain * deadTime, 6);
  });
});

// Two poles at rest and a damped body: k (s + 1)^2/(s^2 (s + a)) needs k > 1/2 - a (Routh), and no gain is too much.
describe("a loop that needs its gain", () => {
  const pieces = continuousLoop(allPole([0, 0.1, 1], 0), 3);
  const scaled = (k: number) => ({ p: 2 * k, i: k, d: k });

  test("the gain may fall to the lower crossing", () => {
    const margins = marginsOf(pieces, scaled(1));
    expect(margins.stable).toBe(true);
    expect(margins.gainDown).toBeCloseTo(decibels(1 / 0.4), 6);
    expect(margins.gainUp).toBeNull();
  });

  test.each([
    [0.4001, true],
    [0.3999, false],
  ])("scaled by %f: stable is %s", (k, stable) => {
    expect(marginsOf(pieces, scaled(k)).stable).toBe(stable);
  });
});

// a/(z - 1) z^-1: the limit is a = 1 at a sixth of the sampling rate; |L| = 1 where 2 sin(w/2) = a, phase -90 - 3w/2.
describe("sampled integrator with one sample of delay at half its ultimate gain", () => {
  const margins = marginsOf(sampledIntegrator(1), only(0.5));

  test("gain may double", () => expect(margins.gainUp).toBeCloseTo(decibels(2), 6));

  test("phase by the law of the sampled integrator", () => {
    const crossover = 2 * Math.asin(0.25);
    expect(margins.phase).toBeCloseTo(90 - (180 / Math.PI) * 1.5 * crossover, 6);
  });
});

test("without delay the limit lies at half the sampling rate", () => {
  expect(marginsOf(sampledIntegrator(0), only(0.5)).gainUp).toBeCloseTo(decibels(4), 6);
});

test("P, I and D are scaled together: D takes part of the room", () => {
  // k (0.4 + 0.2 (1 - 1/z))/(z - 1): the triangle's slant edge, k (0.4 + 2 0.2) = 2. Jury, recomputed.
  expect(marginsOf(sampledIntegrator(0), { p: 0.4, i: 0, d: 0.2 }).gainUp).toBeCloseTo(decibels(2.5), 6);
});

test("an unstable loop has no margin at all, which is not the same as no limit", () => {
  expect(marginsOf(sampledIntegrator(1), only(1.01))).toEqual({ stable: false, gainUp: 0, gainDown: 0, phase: 0 });
});
