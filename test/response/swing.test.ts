import { describe, expect, it } from "vitest";
import { traced } from "../../src/response/reader.js";
import { swingOf } from "../../src/response/swing.js";
import { sampled } from "./traces.js";

const PERIOD = 1 / 4000; // s
const TAIL = 1.2; // s

const read = (f: (t: number) => number) => {
  const trace = sampled(f, TAIL, PERIOD);
  return swingOf(traced(trace), 0, trace.length, PERIOD);
};
const swinging =
  (growth: number, frequency: number, phase = 0.7) =>
  (t: number) =>
    Math.exp(growth * t) * Math.sin(2 * Math.PI * frequency * t + phase);

// The oracle throughout is the closed form the trace is made of: A e^(s t) sin(w t).
describe("growth of exact exponentials", () => {
  const growths = [-10, -3, -0.3, -0.02, 0, 0.02, 1, 3];

  // 500 and 1000 Hz swing a whole number of times in 2 ms, 2000 Hz turns at every sample.
  it.each([8, 12, 20, 60, 137, 500, 1000, 2000])("%d Hz", (frequency) => {
    for (const growth of growths) {
      const swing = read(swinging(growth, frequency));
      expect(Math.abs(swing.growth - growth)).toBeLessThan(0.0005 + 0.002 * Math.abs(growth));
      expect(swing.frequency / frequency).toBeCloseTo(1, 2);
    }
  });

  it.each([4, 6])("%d Hz, less than three cycles in a window", (frequency) => {
    for (const growth of growths) {
      expect(Math.abs(read(swinging(growth, frequency)).growth - growth)).toBeLessThan(
        0.0005 + 0.006 * Math.abs(growth),
      );
    }
  });

  it("does not depend on where in its cycle the tail begins, nor on the scale", () => {
    for (const phase of [0, 1, 2, 3, 4, 5, 6]) {
      const trace = (t: number) => 1e-6 * swinging(-0.3, 12, phase)(t);
      expect(Math.abs(read(trace).growth + 0.3)).toBeLessThan(0.001);
    }
  });

  it("is read from the tail alone", () => {
    const trace = sampled((t) => (t < 0.5 ? 50 : swinging(-1, 12)(t)), 2, PERIOD);
    expect(Math.abs(swingOf(traced(trace), 2000, 6800, PERIOD).growth + 1)).toBeLessThan(0.002);
  });
});

describe("growth under a slow return", () => {
  // An integral at work returns at I/P, about 1 to 2 per second, and starts no larger than the kick it answers.
  it.each([0.5, 1.3, 2, 5, 15])("as large as the oscillation, dying at %d per second", (rate) => {
    for (const growth of [-0.3, -0.02, 0, 0.02, 1]) {
      const swing = read((t) => swinging(growth, 8)(t) + Math.exp(-rate * t));
      expect(Math.abs(swing.growth - growth)).toBeLessThan(0.003);
    }
  });

  it("five times as large costs half the width of the rule for a nudge, no more", () => {
    for (const rate of [0.5, 1.3])
      expect(Math.abs(read((t) => swinging(0, 8)(t) + 5 * Math.exp(-rate * t)).growth)).toBeLessThan(0.012);
  });

  it("leaves the amplitude: the swing about the drift, not the drift", () => {
    const alone = read(swinging(0, 8)).amplitude;
    for (const rate of [0.5, 1.3, 5]) {
      const { amplitude } = read((t) => swinging(0, 8)(t) + 5 * Math.exp(-rate * t));
      expect(amplitude / alone).toBeGreaterThan(0.97);
      expect(amplitude / alone).toBeLessThan(1.05);
    }
  });
});

describe("amplitude", () => {
  it.each([6, 8, 12, 30, 137])("is half the swing at %d Hz", (frequency) => {
    const { amplitude } = read((t) => 0.35 * swinging(0, frequency)(t));
    expect(amplitude).toBeGreaterThan(0.345);
    expect(amplitude).toBeLessThan(0.35 * 1.12);
  });

  it("is read from the last two fifths of the tail", () => {
    const { amplitude } = read(swinging(-5, 20));
    expect(amplitude).toBeLessThan(Math.exp(-5 * 0.6 * TAIL) * 1.05);
    expect(amplitude).toBeGreaterThan(Math.exp(-5 * 0.7 * TAIL));
  });
});

describe("what is no oscillation", () => {
  it.each([0.5, 1.3, 5, 30])("a return dying at %d per second has no half-cycles", (rate) => {
    const swing = read((t) => Math.exp(-rate * t));
    expect(swing.halfCycles).toBe(0);
    expect(swing.frequency).toBe(0);
    expect(swing.growth).toBeCloseTo(-rate, 6);
  });

  it("a still trace swings by nothing", () => {
    for (const level of [0, -3]) {
      expect(read(() => level)).toEqual({
        amplitude: 0,
        growth: Number.NEGATIVE_INFINITY,
        halfCycles: 0,
        frequency: 0,
      });
    }
  });

  it("half-cycles are counted by the number of turning points", () => {
    expect(read(swinging(0, 10)).halfCycles).toBe(24); // 24 half-cycles in 1.2 s
  });

  it("what starts late in a still tail grows", () => {
    expect(read((t) => (t < 0.8 ? 0 : swinging(0, 40)(t))).growth).toBe(Number.POSITIVE_INFINITY);
  });
});
