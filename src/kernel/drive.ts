// What every point of the grid meets under one variant, control period by control period: commands,
// sensor error and disturbed air. Depends on the seed, the script, the condition and the craft's trim, never on
// the trial, so that neighbouring points differ by their gains alone.
import { at } from "../base/at.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import { commandsInto, factorsInto, ratesAsked } from "./controls.js";
import { gustsInto } from "./gusts.js";
import * as m from "./memory.js";
import { type Schedule, scheduleOf } from "./schedule.js";
import type { Span } from "./segments.js";
import { sensorErrorInto } from "./sensor-error.js";
import { type Bursts, burstsOf, washInto } from "./wash.js";

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

/** Whether two variants of a plan meet the same noise and wash: they differ in axis and commanded rate alone. */
export const meetSameNoise = (one: TrialVariant, other: TrialVariant): boolean =>
  one.script === other.script && one.condition === other.condition && one.throttle === other.throttle;

/** What a drive may take over from another one. */
export interface DriveOptions {
  /** The drive of a variant that meets the same noise under the same seed, which saves drawing it again. */
  readonly like?: Drive | undefined;
  /** Bursts of the wash: a draw's are those of the model as it is written, as chance is the same in all. */
  readonly bursts?: Bursts | null | undefined;
}

export function driveOf(
  plan: TrialPlan,
  variant: TrialVariant,
  shape: m.Shape,
  { like, bursts }: DriveOptions = {},
): Drive {
  const schedule = scheduleOf(plan, variant);
  const width = m.driveWidth(shape);
  const streams = streamsOf(plan, variant);
  const values = like?.values.slice() ?? noiseAndWash(plan, variant, schedule, width, bursts);
  const asked = ratesAsked(schedule, variant.axis);
  commandsInto(values, shape, schedule, asked, plan.airframe);
  if (shape.extended === 1) factorsInto(values, shape, schedule, plan.airframe);
  airInto(values, width, schedule);
  gustsInto(values, width, variant, schedule, streams);
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

type Streams = readonly (string | number)[];

const streamsOf = (plan: TrialPlan, { script, condition }: TrialVariant): Streams => [
  plan.sweep.seed,
  script.name,
  plan.conditions[condition].condition.name,
];

/** The bursts of a variant's wash under the plan's seed; null where it has none. */
export const variantBursts = (plan: TrialPlan, variant: TrialVariant): Bursts | null =>
  burstsOf(at(plan.conditions, variant.condition).craft, variant, scheduleOf(plan, variant), streamsOf(plan, variant));

function noiseAndWash(
  plan: TrialPlan,
  variant: TrialVariant,
  schedule: Schedule,
  width: number,
  given: Bursts | null | undefined,
): Float64Array {
  const streams = streamsOf(plan, variant);
  const { craft } = at(plan.conditions, variant.condition);
  const values = new Float64Array(schedule.steps * width);
  for (let at = m.THRUST_SHARE; at < values.length; at += width) values.fill(1, at, at + width - m.THRUST_SHARE);
  if (variant.script.noise) sensorErrorInto(values, width, plan, variant, schedule, streams);
  const bursts = given === undefined ? burstsOf(craft, variant, schedule, streams) : given;
  if (bursts !== null) washInto(values, width, craft, variant, schedule, bursts);
  return values;
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

/** Sets the climb, and still air for gusts to add to. */
function airInto(values: Float64Array, width: number, { steps, climb }: Schedule): void {
  for (let k = 0; k < steps; k++) {
    const now = k * width;
    values[now + m.CLIMB] = climb[k];
    values[now + m.GUST_ROLL] = 0;
    values[now + m.GUST_PITCH] = 0;
  }
}
