// Prop wash: in descent each rotor meets its own wake. Mean thrust is lost and bursts come every 20 to 50
// revolutions, worst at 1.2 to 1.3 times the induced velocity (Stack, Caradonna & Savas 2004; Veismann,
// Dougherty & Gharib 2023). The bump's shape between those facts is ours.
import type { Wash } from "../airframe/airframe.js";
import { exp } from "../base/elementary.js";
import { fillGaussian, stream, type Xoshiro128 } from "../base/random.js";
import * as m from "./memory.js";
import type { Schedule } from "./schedule.js";

const WORST = 1.25;
const FROM = 0.3;
const TO = 2;

/** Share of the worst case at a descent ratio x = descent / vh: 0 outside 0.3 to 2, 1 at 1.25, smooth between. */
export function washShare(ratio: number): number {
  if (ratio <= FROM || ratio >= TO) return 0;
  const place = ratio < WORST ? (ratio - FROM) / (WORST - FROM) : (TO - ratio) / (TO - WORST);
  return place * place * (3 - 2 * place);
}

export function washInto(
  values: Float64Array,
  width: number,
  rotors: number,
  wash: Wash,
  schedule: Schedule,
  streams: readonly (string | number)[],
): void {
  if (schedule.descent.every((speed) => speed <= 0)) return;
  const common = bursts(schedule, wash, stream(...streams, "wash"));
  for (let i = 0; i < rotors; i++) {
    const own = bursts(schedule, wash, stream(...streams, "wash", i));
    for (let k = 0; k < schedule.steps; k++) {
      const share = washShare(schedule.descent[k] / schedule.inducedVelocity[k]);
      const burst = Math.sqrt(wash.correlation) * common[k] + Math.sqrt(1 - wash.correlation) * own[k];
      const thrust = 1 - wash.loss * share + wash.rms * share * burst;
      values[k * width + m.THRUST_SHARE + i] = Math.max(0, thrust);
    }
  }
}

/** Noise of unit variance, two poles at rotor speed / revolutions; exact for the first pole at any step. */
export function bursts(schedule: Schedule, wash: Wash, source: Xoshiro128): Float64Array {
  const white = new Float64Array(schedule.steps + 1);
  fillGaussian(white, source);
  const out = new Float64Array(schedule.steps);
  let first = white[schedule.steps];
  let second = 0.5 * first;
  for (let k = 0; k < schedule.steps; k++) {
    const keep = exp((-schedule.speed[k] * schedule.period) / wash.revolutions);
    first = keep * first + Math.sqrt(1 - keep * keep) * white[k];
    second = keep * second + (1 - keep) * first;
    // Stationary deviation of the second pole: sqrt(1 + keep^2) / (1 + keep), from its Lyapunov equation.
    out[k] = (second * (1 + keep)) / Math.sqrt(1 + keep * keep);
  }
  return out;
}
