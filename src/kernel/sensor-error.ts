// Sensor error: white noise of the declared density, and the rotors' vibration.
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import { multisineOf, noisePeriod } from "./multisine.js";
import { SENSOR_ERROR } from "./noise-layout.js";
import type { Schedule } from "./schedule.js";
import { vibrationInto } from "./vibration.js";

/** Sigma of white noise sampled at a rate is density sqrt(rate / 2), the density being one-sided. */
const noiseSigma = (density: number, rate: number): number => density * Math.sqrt(rate / 2);

const AXES = ["roll", "pitch", "yaw"] as const;

export function sensorErrorInto(
  values: Float64Array,
  width: number,
  plan: TrialPlan,
  variant: TrialVariant,
  schedule: Schedule,
  streams: readonly (string | number)[],
): void {
  const { sensing, controller } = plan.airframe;
  const sigma = noiseSigma(sensing.noiseDensity, controller.rate);
  const length = noisePeriod(variant.script, schedule.period);
  for (const [a, axis] of AXES.entries()) {
    const white = multisineOf(length, [...streams, "sensor", axis]);
    whiteInto(values, width, SENSOR_ERROR + a, white, sigma);
  }
  vibrationInto(values, width, plan, variant, schedule, streams);
}

/** Sets a column to one period of noise, over and over. */
function whiteInto(values: Float64Array, width: number, column: number, white: Float64Array, sigma: number): void {
  for (let now = column, at = 0; now < values.length; now += width) {
    values[now] = sigma * white[at];
    if (++at === white.length) at = 0;
  }
}
