// The loop itself flown as a textbook loop: craft, drive and state written by hand so that one axis is a plain plant.
import { describe, expect, test } from "vitest";
import { advance } from "../../src/kernel/loop.js";
import * as m from "../../src/kernel/memory.js";
import { swingOf } from "../../src/response/swing.js";

interface PlainLoop {
  readonly craft: Float64Array;
  readonly shape: m.Shape;
  readonly period: number; // s
  /** Rotor speeds at rest, rad/s. */
  readonly speed: number;
}

const COLLECTIVE = 0.5;

const KICK = 1e-6; // rad/s: small enough to grow through the whole trial without meeting a limit

/** Rate of roll against time after a small kick, P and D in fractions per rad/s and rad/s^2. */
function flown({ craft, shape, period, speed }: PlainLoop, p: number, d: number, steps: number): Float64Array {
  const width = m.driveWidth(shape);
  const drive = new Float64Array(steps * width);
  for (let k = 0; k < steps; k++) {
    drive[k * width + m.THROTTLE] = COLLECTIVE;
    drive.fill(1, k * width + m.THRUST_SHARE, (k + 1) * width);
  }
  const state = new Float64Array(m.stateLength(shape));
  state[m.BODY_RATE] = KICK;
  state[m.FILTERED] = KICK;
  state[m.P_GAIN] = p;
  state[m.D_GAIN] = d / period;
  state[m.SERVED] = 1;
  state.fill(speed, m.STATE_SIZE, m.STATE_SIZE + 2 * shape.rotors);
  state.fill(COLLECTIVE, m.delayLineAt(shape));
  const trace = new Float64Array(steps);
  const counts = [shape.rotors, shape.sensorStages, shape.derivativeStages, shape.delaySteps, shape.substeps] as const;
  advance(craft, drive, state, trace, ...counts, 0, 0, 0, steps);
  return trace;
}

/** P at which the swing neither grows nor dies out, between one that does each. */
function boundary(loop: PlainLoop, d: number, from: number, to: number, steps: number): { p: number; period: number } {
  const swing = (p: number) => swingOf(flown(loop, p, d, steps), Math.floor(steps / 4), steps, loop.period);
  let [low, high] = [from, to];
  expect([swing(low).growth > 0, swing(high).growth > 0]).toEqual([false, true]);
  while (high - low > 1e-5 * high) {
    const middle = 0.5 * (low + high);
    if (swing(middle).growth > 0) high = middle;
    else low = middle;
  }
  return { p: high, period: 1 / swing(high).frequency };
}

const relative = (value: number, wanted: number) => Math.abs(value / wanted - 1);

/** Two rotors, no sag, no filters; numbers of the craft not named here are 0. */
function twoRotors(shape: m.Shape, period: number, numbers: Readonly<Record<number, number>>): Float64Array {
  const craft = new Float64Array(m.craftLength(shape));
  Object.entries({ [m.SUBSTEP]: period / shape.substeps, [m.DUTY_SPAN]: 1, [m.INTEGRAL_LIMIT]: 1, ...numbers }).forEach(
    ([index, value]) => {
      craft[Number(index)] = value;
    },
  );
  [1, -1].forEach((side, i) => {
    const row = m.CRAFT_SIZE + i * m.ROTOR_WIDTH;
    craft[row + m.ARM_Y] = side;
    craft[row + m.SPIN] = -side;
    craft[row + m.MIX_ROLL] = side;
  });
  return craft;
}

/**
 * x[n+1] = x[n] + T u[n - k]: the rotors never turn, and the reaction to their currents, which follow the duties at
 * once, turns the craft about roll by one cross term of the mobility: 1 rad/s^2 per unit of command.
 */
function integrator(delaySteps: number): PlainLoop {
  const shape = { rotors: 2, sensorStages: 0, derivativeStages: 0, delaySteps, substeps: 1 };
  const craft = twoRotors(shape, 1, {
    [m.PACK_EMF]: 1,
    [m.CONDUCTANCE]: 0.5,
    [m.MOTOR_CONSTANT]: 1,
    [m.MOBILITY + 4]: 1, // roll against yaw torque
  });
  return { craft, shape, period: 1, speed: 0 };
}

test("without gains the plain integrator stands still, and one command moves it by one period's worth", () => {
  expect([...flown(integrator(0), 0, 0, 4)]).toEqual([KICK, KICK, KICK, KICK]);
  const [first, second, third] = flown(integrator(1), 0.25, 0, 3);
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
  const last = (a: number) => Math.abs(flown(integrator(0), a, d, 3000)[2999]);
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

/**
 * 1/(s (lag s + 1)) behind `latency`: the motors' own lag, a thrust that grows with speed squared about their resting
 * speed, and a body without air. A hold of one period is half a period of dead time.
 */
function lagAndDeadTime(lag: number, deadTime: number): PlainLoop {
  const steps = 40;
  const shape = { rotors: 2, sensorStages: 0, derivativeStages: 0, delaySteps: steps, substeps: 1 };
  const period = deadTime / (steps + 0.5);
  const [constant, emf] = [0.01, 10];
  const speed = (COLLECTIVE * emf) / constant;
  const craft = twoRotors(shape, period, {
    [m.PACK_EMF]: emf,
    [m.CONDUCTANCE]: 1,
    [m.MOTOR_CONSTANT]: constant,
    [m.TORQUE_TO_SPEED]: 1 / (constant * lag),
    // A unit of roll command changes each speed by emf/constant, and its thrust by 2 speed times that.
    [m.THRUST_STATIC]: constant / (2 * 2 * speed * emf),
    [m.MOBILITY]: 1,
  });
  return { craft, shape, period, speed };
}

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
