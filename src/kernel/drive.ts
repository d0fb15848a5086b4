// What every point of the grid meets under one variant, control period by control period: commands,
// sensor error and disturbed air. Depends on the seed, the script, the condition and the craft's trim, never on
// the trial, so that neighbouring points differ by their gains alone.
import type { Airframe } from "../airframe/airframe.js";
import { gainFactorsAt } from "../airframe/gain-schedule.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import { gustsInto } from "./gusts.js";
import * as m from "./memory.js";
import { noiseInto, noiseLength, streamsOf } from "./noise.js";
import { noiseWidth, SENSOR_ERROR, SHARES } from "./noise-layout.js";
import { type Schedule, scheduleOf } from "./schedule.js";
import type { Span } from "./segments.js";

export interface Drive {
  readonly steps: number;
  readonly width: number;
  readonly values: Float64Array;
  /** The control periods outside of which the air is still: no climb, no gust, every rotor's thrust its own. */
  readonly disturbed: Span;
  /** Mean copper-loss current squared, summed over rotors, of the same trial without a control demand, per step, A^2. */
  readonly restHeat: Float64Array;
}

/** `noise`: as noise.ts writes it, where it is there already. */
export function driveOf(plan: TrialPlan, variant: TrialVariant, shape: m.Shape, noise?: Float64Array): Drive {
  const schedule = scheduleOf(plan, variant);
  const width = m.driveWidth(shape);
  const values = new Float64Array(schedule.steps * width);
  commandsInto(values, width, schedule, variant);
  copyNoise(values, shape, noise ?? noiseInto(new Float64Array(noiseLength(plan, variant)), plan, variant));
  if (shape.scheduled === 1) factorsInto(values, shape, schedule, plan.airframe);
  gustsInto(values, width, variant, schedule, streamsOf(plan, variant));
  const { steps, restHeat } = schedule;
  return { steps, width, values, disturbed: disturbedSpan(values, shape, steps), restHeat };
}

function copyNoise(values: Float64Array, shape: m.Shape, noise: Float64Array): void {
  const [width, step] = [m.driveWidth(shape), noiseWidth(shape.rotors)];
  for (let from = 0, now = 0; from < noise.length; from += step, now += width) {
    for (let a = 0; a < SHARES; a++) values[now + m.NOISE + a] = noise[from + SENSOR_ERROR + a];
    for (let i = 0; i < shape.rotors; i++) values[now + m.THRUST_SHARE + i] = noise[from + SHARES + i];
  }
}

/** From the first control period in which the air moves to after the last. */
export function disturbedSpan(values: Float64Array, shape: m.Shape, steps: number): Span {
  const [width, rotorsEnd] = [m.driveWidth(shape), m.scheduleAt(shape)];
  const isStill = (k: number): boolean => {
    const now = k * width;
    if (values[now + m.CLIMB] !== 0 || values[now + m.GUST_ROLL] !== 0 || values[now + m.GUST_PITCH] !== 0)
      return false;
    for (let at = now + m.THRUST_SHARE; at < now + rotorsEnd; at++) if (values[at] !== 1) return false;
    return true;
  };
  let from = 0;
  while (from < steps && isStill(from)) from++;
  let to = steps;
  while (to > from && isStill(to - 1)) to--;
  return { from, to };
}

/** Sets what the gains are multiplied by at the throttle that the script commands. */
function factorsInto(values: Float64Array, shape: m.Shape, { steps, throttle }: Schedule, airframe: Airframe): void {
  const [width, at] = [m.driveWidth(shape), m.scheduleAt(shape)];
  for (let k = 0; k < steps; k++) {
    const { p, i, d } = gainFactorsAt(airframe, throttle[k]);
    values.set([p, p, p, i, i, i, d, d, d], k * width + at);
  }
}

/** What a script commands; gusts come on top. */
function commandsInto(values: Float64Array, width: number, schedule: Schedule, variant: TrialVariant): void {
  const axis = m.axisPlace(variant.axis);
  for (let k = 0; k < schedule.steps; k++) {
    const now = k * width;
    values[now + m.THROTTLE] = schedule.throttle[k];
    values[now + m.COMMAND + 2] = schedule.yaw[k];
    values[now + m.COMMAND + axis] = axis === 2 ? schedule.yaw[k] + schedule.command[k] : schedule.command[k];
    values[now + m.CLIMB] = schedule.climb[k];
  }
}
