// What every point of the grid meets under one variant, control period by control period: commands,
// sensor error and disturbed air. Depends on the seed, the script, the condition and the craft's trim, never on
// the trial, so that neighbouring points differ by their gains alone.
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import { columnInto, commandsInto, factorsInto, ratesAsked } from "./controls.js";
import { gustsInto } from "./gusts.js";
import * as m from "./memory.js";
import { movingStagesInto } from "./moving-stages.js";
import { noiseInto, noiseLength, streamsOf } from "./noise.js";
import { noiseWidth, SENSOR_ERROR, SHARES } from "./noise-layout.js";
import { scheduleOf } from "./schedule.js";
import type { Span } from "./segments.js";

export interface Drive {
  readonly steps: number;
  readonly width: number;
  readonly values: Float64Array;
  /** Rate of the axis under test as the script commands it, before the controller's low-pass of it, rad/s. */
  readonly command: Float64Array;
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
  const asked = ratesAsked(schedule, variant.axis);
  commandsInto(values, shape, schedule, asked, plan.airframe);
  if (shape.extended === 1) {
    factorsInto(values, shape, schedule, plan.airframe);
    movingStagesInto(values, shape, schedule, plan, variant);
  }
  columnInto(values, width, m.CLIMB, schedule.climb);
  copyNoise(values, shape, noise ?? noiseInto(new Float64Array(noiseLength(plan, variant)), plan, variant));
  gustsInto(values, width, variant, schedule, streamsOf(plan, variant));
  const { steps, restHeat } = schedule;
  return {
    steps,
    width,
    values,
    command: asked[variant.axis],
    disturbed: disturbedSpan(values, shape, steps),
    restHeat,
  };
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
  const [width, rotorsEnd] = [m.driveWidth(shape), m.extensionAt(shape)];
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
