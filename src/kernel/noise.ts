// What chance does to a trial, control period by control period: the sensor's error and what each rotor loses in its wake. It
// depends on the seed, the script, the condition and the throttle, so that variants of another axis or rate meet the same.
import { at } from "../base/at.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import { noiseWidth, SHARES } from "./noise-layout.js";
import { type Schedule, scheduleOf, stepsOf } from "./schedule.js";
import { sensorErrorInto } from "./sensor-error.js";
import { type Bursts, burstsOf, washInto } from "./wash.js";

/** Variants of a plan with the same key meet the same noise under the same seed. */
export const noiseKey = ({ script, condition, throttle }: TrialVariant): string =>
  `${script.name} ${script.duration} ${condition} ${throttle}`;

/** How many numbers `noiseInto` writes. */
export const noiseLength = (plan: TrialPlan, variant: TrialVariant): number =>
  stepsOf(plan, variant) * noiseWidth(plan.airframe.rotors.length);

/** The keys of a variant's random numbers. */
export const streamsOf = (plan: TrialPlan, { script, condition }: TrialVariant): readonly (string | number)[] => [
  plan.sweep.seed,
  script.name,
  at(plan.conditions, condition).condition.name,
];

/** The bursts of a variant's wash under the plan's seed; null where it has none. */
export const variantBursts = (
  plan: TrialPlan,
  variant: TrialVariant,
  schedule: Schedule = scheduleOf(plan, variant),
): Bursts | null => burstsOf(at(plan.conditions, variant.condition).craft, variant, schedule, streamsOf(plan, variant));

/**
 * Writes a variant's noise under the plan's seed into zeros and returns them, [control period][SENSOR_ERROR, SHARES]; with the
 * given bursts where they are not the variant's own.
 */
export function noiseInto(
  values: Float64Array,
  plan: TrialPlan,
  variant: TrialVariant,
  given?: Bursts | null,
): Float64Array {
  const schedule = scheduleOf(plan, variant);
  const width = noiseWidth(plan.airframe.rotors.length);
  wholeSharesInto(values, width);
  if (variant.script.noise) sensorErrorInto(values, width, plan, variant, schedule, streamsOf(plan, variant));
  const bursts = given === undefined ? variantBursts(plan, variant, schedule) : given;
  const { craft } = at(plan.conditions, variant.condition);
  if (bursts !== null) washInto(values, width, craft, variant, schedule, bursts);
  return values;
}

/*
 * Loops over a trial's control periods stand in functions of their own: one that runs on into code which was never reached
 * before is thrown away by the engine as soon as it has been compiled, time and again while a run is young.
 */

/** Every rotor's thrust its own. */
function wholeSharesInto(values: Float64Array, width: number): void {
  for (let now = 0; now < values.length; now += width)
    for (let share = SHARES; share < width; share++) values[now + share] = 1;
}
