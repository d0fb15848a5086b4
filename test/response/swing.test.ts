import { describe, expect, it } from "vitest";
import { stream } from "../../src/base/random.js";
import { passagesOf } from "../../src/response/passages.js";
import { traceOf } from "../../src/response/reader.js";
import { FEWEST_HALF_CYCLES } from "../../src/response/sustained.js";
import { ringOf, swingOf } from "../../src/response/swing.js";
import { sampled } from "./traces.js";

const PERIOD = 1 / 4000; // s
const TAIL = 1.2; // s

const read = (f: (t: number) => number) => {
  const trace = sampled(f, TAIL, PERIOD);
  return swingOf(traceOf(trace), 0, trace.length, PERIOD);
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
    expect(Math.abs(swingOf(traceOf(trace), 2000, 6800, PERIOD).growth + 1)).toBeLessThan(0.002);
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
  const turn = 2 * Math.PI;

  // Cycles in the last part of the tail, which is 0.4 of it; from one and a half on any phase shows two extremes of a side.
  it.each([1.5, 1.7, 2, 2.31, 3.77, 5, 9.9, 21.6, 57.3])("of a steady sine is exact over %d cycles", (cycles) => {
    const frequency = cycles / (0.4 * TAIL);
    for (let phase = 0; phase < turn; phase += 0.37)
      for (const drift of [0, 1, -7]) {
        const { amplitude } = read((t) => 0.35 * swinging(0, frequency, phase)(t) + drift * t + 0.2);
        expect(Math.abs(amplitude / 0.35 - 1)).toBeLessThan(0.002);
      }
  });

  it("of the fewest half-cycles that count at all reads low by an eighth at most, never high", () => {
    for (let phase = 0; phase < turn; phase += 0.31)
      for (let frequency = 2; frequency < 4; frequency += 0.17) {
        const { amplitude, halfCycles } = read(swinging(0, frequency, phase));
        expect(amplitude).toBeLessThan(1.002);
        if (halfCycles >= FEWEST_HALF_CYCLES) expect(amplitude).toBeGreaterThan(0.875);
      }
  });

  it("of shapes that are no sine is half their swing as well", () => {
    const triangle = (t: number) => Math.abs(((12.3 * t) % 2) - 1);
    expect(read(triangle).amplitude).toBeCloseTo(0.5, 2);
    const clipped = (t: number) => Math.max(-0.4, Math.min(0.4, swinging(0, 7)(t))) + 2 * t;
    expect(read(clipped).amplitude).toBeCloseTo(0.4, 3);
  });

  it("of a drift alone is nothing", () => {
    expect(read((t) => 3 - 40 * t).amplitude).toBeLessThan(1e-12);
  });

  it("is read from the last two fifths of the tail", () => {
    const { amplitude } = read(swinging(-5, 20));
    expect(amplitude).toBeLessThan(Math.exp(-5 * 0.6 * TAIL) * 1.05);
    expect(amplitude).toBeGreaterThan(Math.exp(-5 * 0.7 * TAIL));
  });
});

// Oracle: A e^(-z wn t) cos(wd t) rings at wd.
describe("ring of a nudge", () => {
  const rung = (z: number, frequency: number, rest: (t: number) => number = () => 0) => {
    const wd = 2 * Math.PI * frequency;
    const decay = (z / Math.sqrt(1 - z * z)) * wd;
    const trace = sampled((t) => 0.02 * Math.exp(-decay * t) * Math.cos(wd * t + 0.6) + rest(t), 1.7, PERIOD);
    return ringOf(traceOf(trace).reader, 0, trace.length, PERIOD);
  };

  it.each([0, 0.02, 0.1, 0.2, 0.3])("is that of the decaying swing at damping %d", (z) => {
    for (const frequency of [1.6, 4, 12, 60, 137]) {
      // A passage is dated to a sample.
      const sample = frequency * PERIOD;
      expect(Math.abs(rung(z, frequency) / frequency - 1)).toBeLessThan(0.005 + sample);
      if (frequency > 3) expect(rung(z, frequency, (t) => 0.01 * Math.exp(-1.3 * t)) / frequency).toBeCloseTo(1, 1);
    }
  });

  it("counts as passages.ts does, sample by sample, whatever the trace", () => {
    const source = stream("ring");
    for (let round = 0; round < 300; round++) {
      const [jump, length] = [round % 3, 3 + (source.next() % 90)];
      // steps of whole numbers, so that changes of nothing and of just the threshold come up as well
      const step = () => (jump === 0 ? (source.next() % 5) - 2 : (source.next() / 2 ** 32 - 0.5) ** (2 * jump - 1));
      let value = 0;
      const trace = Float64Array.from({ length }, () => {
        value += step();
        return value;
      });
      const largest = trace.reduce((most, now, k) => Math.max(most, k === 0 ? 0 : Math.abs(now - trace[k - 1])), 0);
      const passages = passagesOf(trace.subarray(1), trace.subarray(0, length - 1), 0.05 * largest);
      expect(ringOf(traceOf(trace).reader, 0, length, PERIOD)).toBe(passages.frequency(PERIOD));
    }
  });

  it("is none where it does not swing", () => {
    expect(rung(0.8, 6)).toBe(0);
    for (const f of [() => 0, () => 3, (t: number) => Math.exp(-4 * t)]) {
      const trace = sampled(f, 1.7, PERIOD);
      expect(ringOf(traceOf(trace).reader, 0, trace.length, PERIOD)).toBe(0);
    }
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
