// The loop itself set up as a textbook loop: craft, drive and state written by hand so that one axis is a plain plant.
import { delayOf, takeoverOf } from "../../src/airframe/latency.js";
import { advance } from "../../src/kernel/loop.js";
import * as m from "../../src/kernel/memory.js";
import { traceOf } from "../../src/response/reader.js";
import { swingOf } from "../../src/response/swing.js";

export interface PlainLoop {
  readonly craft: Float64Array;
  readonly shape: m.Shape;
  readonly period: number; // s
  /** Rotor speeds at rest, rad/s. */
  readonly speed: number;
}

const COLLECTIVE = 0.5;
const HEAVY = 2 ** 60; // kg m^2

export const KICK = 1e-6; // rad/s: small enough to grow through the coupled trial without meeting a limit

interface PlainTrial {
  readonly p: number; // fraction per rad/s
  readonly d?: number; // fraction per rad/s^2
  readonly steps: number;
  /** Rate of the body at the start, rad/s. */
  readonly kick?: number;
  /** Commanded rate at each control period, rad/s. */
  readonly command?: (k: number) => number;
}

/** Rate of roll at each control period. */
export function simulated({ craft, shape, period, speed }: PlainLoop, trial: PlainTrial): Float64Array {
  const { p, d = 0, steps, kick = KICK, command = () => 0 } = trial;
  const width = m.driveWidth(shape);
  const drive = new Float64Array(steps * width);
  for (let k = 0; k < steps; k++) {
    drive[k * width + m.THROTTLE] = COLLECTIVE;
    drive[k * width + m.COMMAND] = command(k);
    drive.fill(1, k * width + m.THRUST_SHARE, (k + 1) * width);
  }
  const state = new Float64Array(m.stateLength(shape));
  state[m.BODY_RATE] = kick;
  state[m.FILTERED] = kick;
  state[m.P_GAIN] = p;
  state[m.D_GAIN] = d / period;
  state[m.SERVED] = 1;
  state.fill(speed, m.STATE_SIZE, m.STATE_SIZE + 2 * shape.rotors);
  state.fill(COLLECTIVE, m.delayLineAt(shape));
  const trace = new Float64Array(steps);
  const counts = m.countsOf(shape);
  advance(craft, drive, state, trace, ...counts, 0, 0, 0, 0, steps);
  return trace;
}

/** P at which the swing neither grows nor dies out, between one that does each. */
export function boundary(
  loop: PlainLoop,
  d: number,
  from: number,
  to: number,
  steps: number,
): { readonly p: number; readonly period: number } {
  const swing = (p: number) =>
    swingOf(traceOf(simulated(loop, { p, d, steps })), Math.floor(steps / 4), steps, loop.period);
  let [low, high] = [from, to];
  if (swing(low).growth > 0 || !(swing(high).growth > 0)) throw new Error(`no boundary between ${from} and ${to}`);
  while (high - low > 1e-5 * high) {
    const middle = 0.5 * (low + high);
    if (swing(middle).growth > 0) high = middle;
    else low = middle;
  }
  return { p: high, period: 1 / swing(high).frequency };
}

export const relative = (value: number, wanted: number) => Math.abs(value / wanted - 1);

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
 * x[n+1] = x[n] + T u[n - delay], of a fraction the mean of the two nearest: the rotors are too heavy to turn, and the reaction to their currents, which follow the
 * duties at once, turns the craft about roll by one cross term of the mobility: 1 rad/s^2 per unit of command.
 */
export function integrator(delay: number, period = 1): PlainLoop {
  const { shape, numbers } = lateBy(delay, 1);
  const craft = twoRotors(shape, period, {
    ...numbers,
    [m.PACK_EMF]: 1,
    [m.CONDUCTANCE]: 0.5,
    [m.MOTOR_CONSTANT]: 1,
    [m.TORQUE_TO_SPEED]: 1 / HEAVY,
    [m.ROTOR_INERTIA]: HEAVY,
    [m.MOBILITY + 4]: 1, // roll against yaw torque
  });
  return { craft, shape, period, speed: 0 };
}

/**
 * 1/(s (lag s + 1)) behind `deadTime`: the motors' own lag, a thrust that grows with speed squared about their resting
 * speed, and a body without air. A hold of one period is half a period of dead time.
 */
export function lagAndDeadTime(lag: number, deadTime: number, delay = 40): PlainLoop {
  return lagBehindHold(lag, delay, deadTime / (delay + 0.5), 1);
}

/** 1/(s (lag s + 1)) behind a hold of `period` s and `delay` periods, stepped `substeps` times a period. */
export function lagBehindHold(lag: number, delay: number, period: number, substeps: number): PlainLoop {
  const { shape, numbers } = lateBy(delay, substeps);
  return motors(lag, shape, period, numbers);
}

/** A loop without filters whose commands are late by `delay` control periods, and what its craft has to know of that. */
function lateBy(delay: number, substeps: number): { shape: m.Shape; numbers: Readonly<Record<number, number>> } {
  const late = delayOf({ controller: { rate: 1, latency: delay } });
  const { olderSteps, newerShare } = takeoverOf(late, substeps);
  return {
    shape: { ...WITHOUT_FILTERS, delaySteps: late.steps, substeps, olderSteps },
    numbers: Object.fromEntries(m.takeoverCells(newerShare).map((value, k) => [m.NEWER_SHARE + k, value])),
  };
}

const WITHOUT_FILTERS = {
  rotors: 2,
  sensorStages: 0,
  derivativeStages: 0,
  dutyBends: 0,
  movingSensorStages: 0,
  movingDerivativeStages: 0,
  extended: 0 as const,
  coupled: 0 as const,
};

/** 1/(s (lag s + 1)) with one filter stage (b0, b1, b2, a1, a2) on the measured rate, no latency. */
export function motorsAndFilter(lag: number, stage: readonly number[], period: number): PlainLoop {
  const shape = { ...lateBy(0, 1).shape, sensorStages: 1 };
  const loop = motors(lag, shape, period);
  loop.craft.set(stage, m.CRAFT_SIZE + shape.rotors * m.ROTOR_WIDTH);
  return loop;
}

function motors(
  lag: number,
  shape: m.Shape,
  period: number,
  numbers: Readonly<Record<number, number>> = {},
): PlainLoop {
  const [constant, emf] = [0.01, 10];
  const speed = (COLLECTIVE * emf) / constant;
  const craft = twoRotors(shape, period, {
    ...numbers,
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
