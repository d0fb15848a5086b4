// Sensor error: white noise of the declared density, and vibration lines at multiples of each rotor's speed.
import { cos, sin } from "../base/elementary.js";
import { fillGaussian, stream } from "../base/random.js";
import type { Plan, Variant } from "../plan/plan.js";
import * as m from "./memory.js";
import type { Schedule } from "./schedule.js";

/** Sigma of white noise sampled at a rate is density sqrt(rate / 2), the density being one-sided. */
export const noiseSigma = (density: number, rate: number): number => density * Math.sqrt(rate / 2);

export function sensorErrorInto(
  values: Float64Array,
  width: number,
  plan: Plan,
  variant: Variant,
  schedule: Schedule,
  streams: readonly (string | number)[],
): void {
  const { sensing } = plan.airframe;
  const sigma = noiseSigma(sensing.noiseDensity, plan.airframe.controller.rate);
  const white = new Float64Array(3 * schedule.steps);
  fillGaussian(white, stream(...streams, "sensor"));
  for (let k = 0; k < schedule.steps; k++) {
    for (let a = 0; a < 3; a++) values[k * width + m.NOISE + a] = sigma * white[3 * k + a];
  }
  const hover = plan.conditions[variant.condition]?.hover;
  const phases = stream(...streams, "vibration");
  for (const line of sensing.vibration) {
    for (let rotor = 0; rotor < plan.airframe.rotors.length; rotor++) {
      const trimmed = variant.trim.speeds[rotor] / schedule.speed[0];
      for (let a = 0; a < 3; a++) {
        let phase = (phases.next() / 4294967296) * 2 * Math.PI;
        for (let k = 0; k < schedule.steps; k++) {
          const speed = trimmed * schedule.speed[k];
          const relative = speed / (hover?.speeds[rotor] ?? speed);
          const now = k * width + m.NOISE + a;
          values[now] = values[now] + line.atHover * relative * relative * (a === 1 ? cos(phase) : sin(phase));
          phase += line.harmonic * speed * schedule.period;
        }
      }
    }
  }
}
