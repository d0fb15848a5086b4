// Latency of any fraction of a control period in the loop itself, against sampled loops solved in closed form.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { advance } from "../../src/kernel/loop.js";
import * as m from "../../src/kernel/memory.js";
import type { Rig } from "../../src/kernel/rig.js";
import { firstLimit, lagBehindFractionalHold } from "./modified-z.js";
import {
  boundary,
  integrator,
  lagAndDeadTime,
  lagBehindHold,
  type PlainLoop,
  relative,
  simulated,
} from "./plain-loops.js";
import { rigs } from "./random-rig.js";

const FRACTIONS = [0.1, 0.25, 0.5, 0.6, 0.9];

// An integrator turns with the mean of what acts in a period. Late by f, 0 < f < 1: z^2 - (1 - a (1 - f)) z + a f, whose
// limit is a f = 1, or 2 - a (1 - 2f) = 0 where that comes first (Jury's test, worked here). f = 1 is 1, f = 0 is 2 of
// Levin and May.
test.each(FRACTIONS)("integrator late by %f of a sample", (f) => {
  const nyquist = f < 0.5 ? 2 / (1 - 2 * f) : Number.POSITIVE_INFINITY;
  const limit = Math.min(1 / f, nyquist);
  const last = (a: number) => Math.max(...simulated(integrator(f), { p: a, steps: 3000 }).subarray(2900).map(Math.abs));
  expect(last(0.99 * limit)).toBeLessThan(1e-8);
  expect(last(1.01 * limit)).toBeGreaterThan(1e-4);
});

// Late by 1 + f: z^3 - z^2 + a (1 - f) z + a f; Jury's test, worked here: a + (a f)^2 = 1. f = 0 is 1, f = 1 is 0.6180340 of
// Levin and May.
test.each(FRACTIONS)("integrator late by one sample and %f", (f) => {
  const limit = (Math.sqrt(1 + 4 * f * f) - 1) / (2 * f * f);
  const found = boundary(integrator(1 + f), 0, 0.98 * limit, 1.02 * limit, 400);
  expect(relative(found.p, limit)).toBeLessThan(5e-5);
});

// pi/2 + atan(w tau) + w L = pi and K = w sqrt(1 + (w tau)^2), recomputed; the hold is half a period of dead time.
describe("integrator, lag and dead time of 17.3 and 30.5 periods", () => {
  test.each([
    [0.03, 0.004, 17.3, 255.397443, 0.0703546],
    [0.02, 0.005, 30.5, 207.894766, 0.065437],
  ])("%f s and %f s", (lag, deadTime, delay, gain, period) => {
    const loop = lagAndDeadTime(lag, deadTime, delay);
    const found = boundary(loop, 0, 0.97 * gain, 1.03 * gain, Math.round((12 * period) / loop.period));
    expect(relative(found.p, gain)).toBeLessThan(0.0005);
    expect(relative(found.period, period)).toBeLessThan(0.0005);
  });
});

// Modified z-transform (Jury, Sampled-Data Control Systems, 1958; modified-z.ts): the sampled loop solved exactly.
describe("integrator and lag behind a hold, late by a fraction", () => {
  const [lag, period] = [0.03, 0.002];
  const off = (delay: number, substeps: number) => {
    const { gain, frequency } = firstLimit(lagBehindFractionalHold(lag, delay, period), period);
    const steps = Math.round((24 * Math.PI) / frequency / period);
    return boundary(lagBehindHold(lag, delay, period, substeps), 0, 0.95 * gain, 1.05 * gain, steps).p / gain - 1;
  };

  test.each([0.5, 1.25, 1.5, 2.7])("late by %f periods: with 16 steps a period the two agree", (delay) => {
    expect(Math.abs(off(delay, 16))).toBeLessThan(2e-4);
  });

  // With an odd number of steps the newer command takes over in the middle of one, where the mean is furthest off.
  test("the mean of both commands is off by the square of the step", () => {
    const [coarse, fine] = [off(1.5, 1), off(1.5, 3)];
    expect(Math.abs(coarse)).toBeLessThan(0.02);
    expect(Math.log(coarse / fine) / Math.log(3)).toBeGreaterThan(1.8);
    expect(Math.log(coarse / fine) / Math.log(3)).toBeLessThan(2.2);
  });
});

// The current of a heavy rotor follows its duty at once, so noise heats it alike wherever in a period the command changes.
test("noise heats the motors alike at whole periods and between them", () => {
  const heats = [3, 3.2, 3.5, 3.9, 4].map((delay) => heatOf(lagBehindHold(1e3, delay, 1e-3, 1)));
  for (const heat of heats) expect(relative(heat, heats[0])).toBeLessThan(0.002);
});

/** Heat of a loop whose sensor is all noise. */
function heatOf({ craft, shape, speed }: PlainLoop): number {
  const STEPS = 20_000;
  const width = m.driveWidth(shape);
  const drive = new Float64Array(STEPS * width);
  let seed = 1;
  for (let k = 0; k < STEPS; k++) {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    drive[k * width + m.THROTTLE] = 0.5;
    drive[k * width + m.NOISE] = seed / 2 ** 32 - 0.5;
    drive.fill(1, k * width + m.THRUST_SHARE, (k + 1) * width);
  }
  const state = new Float64Array(m.stateLength(shape));
  state[m.P_GAIN] = 0.4;
  state.fill(speed, m.STATE_SIZE, m.STATE_SIZE + 2 * shape.rotors);
  state.fill(0.5, m.delayLineAt(shape));
  advance(craft, drive, state, new Float64Array(STEPS), ...m.countsOf(shape), 0, 0, 1, 0, STEPS);
  return state[m.HEAT];
}

const bits = (values: Float64Array) => [...new BigUint64Array(values.buffer)];

/** A rig's trace and state after a trial with motors' heat. */
function outcome({ shape, craft, drive, axis, steps, start }: Rig, changed: Partial<m.Shape> = {}) {
  const state = start.slice();
  const trace = new Float64Array(steps);
  advance(craft, drive.values, state, trace, ...m.countsOf({ ...shape, ...changed }), axis, 1, 1, 0, steps);
  return { state, trace };
}

test("where the latency is whole periods nothing of a fraction enters: not a bit changes with it", () => {
  fc.assert(
    fc.property(rigs, (rig) => {
      const whole = { olderSteps: rig.shape.substeps };
      const poisoned = { ...rig, craft: rig.craft.slice().fill(Number.NaN, m.NEWER_SHARE, m.SHARE_VARIANCE + 1) };
      const [one, other] = [outcome(rig, whole), outcome(poisoned, whole)];
      expect(bits(other.trace)).toEqual(bits(one.trace));
      expect(bits(other.state)).toEqual(bits(one.state));
    }),
    { seed: 14, numRuns: 40 },
  );
});

test("between whole periods the trace moves on without a jump", () => {
  const trace = (delay: number) => simulated(lagBehindHold(0.03, delay, 0.002, 3), { p: 100, steps: 300, kick: 1e-3 });
  const apart = (one: number, other: number) => {
    const [a, b] = [trace(one), trace(other)];
    return 1e3 * Math.max(...a.map((value, k) => Math.abs(value - b[k])));
  };
  const TINY = 1e-6;
  for (const at of [2, 2 + 1 / 3, 2.5, 2 + 2 / 3, 3]) {
    expect(apart(at - TINY, at)).toBeLessThan(10 * TINY);
    expect(apart(at, at + TINY)).toBeLessThan(10 * TINY);
  }
  expect(apart(2, 2.5)).toBeGreaterThan(0.01);
});
