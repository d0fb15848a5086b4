// Bursts of thrust in a rotor's own wake: noise of two poles that come every so many revolutions.
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
  const feed = keep.map((kept) => Math.sqrt(1 - kept * kept));
  // Stationary deviation of the second pole: sqrt(1 + keep^2) / (1 + keep), from its Lyapunov equation.
  const scale = keep.map((kept) => (1 + kept) / Math.sqrt(1 + kept * kept));
  return (white, out) => {
    let first = 0;
    let second = 0;
    const step = (k: number, push: number) => {
      first = keep[k] * first + feed[k] * push;
      second = keep[k] * second + (1 - keep[k]) * first;
    };
    // A period beforehand, at the speed the flight begins with: bursts have always been there.
    for (let k = 0; k < length; k++) step(0, white[k]);
    for (let k = 0, at = 0; k < out.length; k++) {
      step(k, white[at]);
      out[k] = second * scale[k];
      if (++at === length) at = 0;
    }
    return out;
  };
}
