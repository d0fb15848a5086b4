// Bursts of thrust in a rotor's own wake: two-pole noise with a burst every so many revolutions.
import type { Wash } from "../airframe/airframe.js";
import { exp } from "../base/elementary.js";
import type { Schedule } from "./schedule.js";

/** White noise, one period of it, to bursts of unit variance, over as many control periods as `out` has. */
export type Through = (white: Float64Array, out: Float64Array) => Float64Array;

/** Two poles at rotor speed / revolutions, over noise of so many control periods; exact for the first pole at any step. */
export function throughPoles(
  { speed, period }: Pick<Schedule, "speed" | "period">,
  { revolutions }: Pick<Wash, "revolutions">,
  length: number,
): Through {
  const keep = speed.map((w) => exp((-w * period) / revolutions));
  const feed = keep.map((factor) => Math.sqrt(1 - factor * factor));
  // Stationary deviation of the second pole: sqrt(1 + keep^2) / (1 + keep), from its Lyapunov equation.
  const scale = keep.map((factor) => (1 + factor) / Math.sqrt(1 + factor * factor));
  return (white, out) => {
    let first = 0;
    let second = 0;
    // One period beforehand, at the trial's initial speed, so that the bursts start in their steady state.
    for (let k = 0; k < length; k++) {
      first = keep[0] * first + feed[0] * white[k];
      second = keep[0] * second + (1 - keep[0]) * first;
    }
    for (let k = 0, at = 0; k < out.length; k++) {
      first = keep[k] * first + feed[k] * white[at];
      second = keep[k] * second + (1 - keep[k]) * first;
      out[k] = second * scale[k];
      if (++at === length) at = 0;
    }
    return out;
  };
}
