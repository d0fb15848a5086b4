import { describe, expect, it } from "vitest";
import { attitudeDeviation, kickOf, wobbleOf } from "../../src/response/deviation.js";
import { lineThrough } from "../../src/response/line.js";
import { traceOf } from "../../src/response/reader.js";
import { sampled } from "./traces.js";

const PERIOD = 1 / 4000; // s
const still = (trace: Float64Array) => new Float64Array(trace.length);
const TURN = 2 * Math.PI;

describe("attitude deviation", () => {
  // The integral of A cos(w t) is A/w sin(w t); the trapezoidal rule misses it by (w period)^2/12 of itself.
  it("is the integral of the rate error", () => {
    const trace = sampled((t) => 0.3 + 2 * Math.cos(TURN * 8 * t), 1, PERIOD);
    const angle = attitudeDeviation(
      trace,
      new Float64Array(trace.length).fill(0.3),
      0,
      trace.length,
      PERIOD,
      new Float64Array(trace.length),
    );
    for (const k of [0, 100, 1234, 3999])
      expect(angle[k]).toBeCloseTo((2 / (TURN * 8)) * Math.sin(TURN * 8 * k * PERIOD), 5);
  });

  it("starts at zero with the window and fills only as much of the buffer as the window has samples", () => {
    const trace = sampled(() => 2, 1, PERIOD);
    const angle = attitudeDeviation(trace, still(trace), 1000, 1400, PERIOD, new Float64Array(trace.length));
    expect(angle.length).toBe(400);
    expect(angle[0]).toBe(0);
    expect(angle[399]).toBeCloseTo(2 * 399 * PERIOD, 12);
  });
});

describe("kick", () => {
  const wave = sampled((t) => 0.3 + 2 * Math.cos(TURN * 8 * t + 0.4), 1, PERIOD);
  const command = new Float64Array(wave.length).fill(0.3);

  it("is the largest departure of the attitude deviation, to either side", () => {
    for (const sign of [1, -1]) {
      const [trace, question] = [wave, command].map((values) => values.map((value) => sign * value)) as [
        Float64Array,
        Float64Array,
      ];
      const angle = attitudeDeviation(trace, question, 200, 1400, PERIOD, new Float64Array(wave.length));
      const most = Math.max(...angle.map(Math.abs));
      expect(kickOf(traceOf(trace).reader, question, 200, 1400, PERIOD).angle).toBeCloseTo(most, 12);
    }
  });

  it("of a craft that does not move is 0, without a sign", () => {
    const rest = new Float64Array(400);
    const { angle, recovery } = kickOf(traceOf(rest).reader, rest, 0, 400, PERIOD);
    expect([angle, recovery]).toEqual([0, 0]);
  });
});

describe("wobble angle", () => {
  // A sine of the rate over whole cycles is a cosine of the angle: about the middle of the window it has rms A/sqrt(2) and no
  // slope of its own. The trapezoidal rule misses it by (w period)^2/12 of itself.
  const rmsOf = (count: number, cycles: number, drift: number) => {
    const w = (TURN * cycles) / ((count - 1) * PERIOD);
    const trace = Float64Array.from({ length: count }, (_, k) => drift - 0.07 * w * Math.sin(w * k * PERIOD));
    return wobbleOf(traceOf(trace), still(trace), 0, count, PERIOD).rms;
  };

  it.each([1, 3, 10])("of %d whole cycles is the amplitude over the root of two", (cycles) => {
    expect(Math.abs((rmsOf(4001, cycles, 0) * Math.SQRT2) / 0.07 - 1)).toBeLessThan(3e-4);
  });

  it.each([0.04, -4])("is the same while the craft drifts away at %d rad/s", (drift) => {
    expect(rmsOf(4001, 4, drift)).toBeCloseTo(rmsOf(4001, 4, 0), 10);
  });

  it("of a straight drift is nothing", () => {
    expect(rmsOf(1000, 0, -0.01)).toBeLessThan(1e-12);
  });

  it("is that of the deviation from the line through it, anywhere in the trace", () => {
    const trace = sampled((t) => Math.sin(TURN * 3 * t * t) + 0.2 * t, 1.5, PERIOD);
    const command = sampled((t) => 0.3 - t, 1.5, PERIOD);
    const [from, to] = [700, 5100];
    const angle = attitudeDeviation(trace, command, from, to, PERIOD, new Float64Array(trace.length));
    const { mean, slope } = lineThrough(angle, 0, angle.length);
    const off = angle.map((value, k) => value - mean - slope * (k - (angle.length - 1) / 2));
    const rms = Math.sqrt(off.reduce((sum, value) => sum + value * value, 0) / off.length);
    expect(wobbleOf(traceOf(trace), command, from, to, PERIOD).rms).toBeCloseTo(rms, 12);
  });
});

describe("wobble frequency", () => {
  const of = (f: (t: number) => number) => {
    const trace = sampled(f, 1.2, PERIOD);
    return wobbleOf(traceOf(trace), still(trace), 0, trace.length, PERIOD).frequency;
  };
  const sine = (frequency: number) => (t: number) => Math.sin(TURN * frequency * t + 0.3);

  it.each([2, 5, 8.3, 16, 41.7])("of a sinusoid at %d Hz", (frequency) => {
    expect(of(sine(frequency)) / frequency).toBeCloseTo(1, 2);
  });

  it("holds under a drift larger than the wobble: the rate error then never passes zero", () => {
    expect(of((t) => 4 + sine(8)(t)) / 8).toBeCloseTo(1, 2);
  });

  it("is not raised by a ripple well under the wobble", () => {
    expect(of((t) => sine(8)(t) + 0.03 * sine(230)(t)) / 8).toBeCloseTo(1, 1);
  });

  it("is measured against the command", () => {
    const command = sampled((t) => 3 * Math.sin(TURN * 1.5 * t), 1.2, PERIOD);
    const trace = command.map((rate, k) => rate + 0.1 * sine(12)(k * PERIOD));
    expect(wobbleOf(traceOf(trace), command, 0, trace.length, PERIOD).frequency / 12).toBeCloseTo(1, 2);
  });

  it("is 0, no frequency, where nothing passes to and fro", () => {
    expect(of(() => 0)).toBe(0);
    expect(of((t) => t)).toBe(0);
  });
});

describe("recovery time", () => {
  const of = (trace: Float64Array) => kickOf(traceOf(trace).reader, still(trace), 0, trace.length, PERIOD).recovery;

  it("of an exponential is ln 10 of its time constant", () => {
    const expected = 1000 * 0.05 * Math.LN10;
    expect(Math.abs(of(sampled((t) => -2 * Math.exp(-t / 0.05), 1, PERIOD)) - expected)).toBeLessThan(1000 * PERIOD);
  });

  it("is the window where the error never shrinks, and 0 where there was none", () => {
    expect(of(sampled(() => 1, 0.5, PERIOD))).toBeCloseTo(500, 0);
    expect(of(sampled(() => 0, 0.5, PERIOD))).toBe(0);
  });
});
