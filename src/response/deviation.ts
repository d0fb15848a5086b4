// What disturbed air or a moving throttle does to the craft: attitude deviation is the integral of the rate error.
import { lineThrough } from "./line.js";
import { passagesOf } from "./passages.js";
import { QUIET } from "./sustained.js";

/** Attitude deviation from the start of the window, rad, one sample per control period (trapezoidal). */
export function attitudeDeviation(
  trace: Float64Array,
  command: Float64Array,
  from: number,
  to: number,
  period: number,
  out: Float64Array,
): Float64Array {
  let angle = 0;
  let before = trace[from] - command[from];
  out[0] = 0;
  for (let k = from + 1; k < to; k++) {
    const now = trace[k] - command[k];
    angle += 0.5 * period * (before + now);
    out[k - from] = angle;
    before = now;
  }
  return out.subarray(0, to - from);
}

export interface Kick {
  /** Largest attitude deviation, rad. */
  readonly angle: number;
  /** Largest rate error, rad/s. */
  readonly error: number;
}

/** The largest of the attitude deviation and of the rate error in the window. */
export function kickOf(trace: Float64Array, command: Float64Array, from: number, to: number, period: number): Kick {
  let before = trace[from] - command[from];
  let error = Math.abs(before);
  let sum = 0; // twice the integral, in periods
  let most = 0;
  for (let k = from + 1; k < to; k++) {
    const now = trace[k] - command[k];
    sum += before + now;
    before = now;
    const [off, turned] = [Math.abs(now), Math.abs(sum)];
    if (off > error) error = off;
    if (turned > most) most = turned;
  }
  return { angle: 0.5 * period * most, error };
}

/** Rms about the best straight line, rad: a drift is not a wobble. */
export function wobbleRms(angle: Float64Array): number {
  const count = angle.length;
  const { mean, slope } = lineThrough(angle, 0, count);
  let squares = 0;
  for (let k = 0; k < count; k++) {
    const off = angle[k] - mean - slope * (k - 0.5 * (count - 1));
    squares += off * off;
  }
  return Math.sqrt(squares / count);
}

/** Share of the rate error's rms that a half-cycle must exceed. */
const COUNTS = 0.1;

/** Mean frequency of the attitude wobble, Hz, from the passages of the rate error through its mean; 0 where too few. */
export function wobbleFrequency(
  trace: Float64Array,
  command: Float64Array,
  from: number,
  to: number,
  period: number,
  room: Float64Array = new Float64Array(to - from),
): number {
  const length = to - from;
  let sum = 0;
  let squares = 0;
  for (let k = 0; k < length; k++) {
    const error = trace[from + k] - command[from + k];
    room[k] = error;
    sum += error;
    squares += error * error;
  }
  const mean = sum / length;
  const rms = Math.sqrt(Math.max(0, squares / length - mean * mean));
  return passagesOf(room, length, COUNTS * rms, mean).frequency(period);
}

/**
 * Time until the rate error stays within a tenth of its largest value, `most`, or within what counts as quiet, ms; the
 * window's length where it never does.
 */
export function recoveryTime(
  trace: Float64Array,
  command: Float64Array,
  from: number,
  to: number,
  period: number,
  most: number,
): number {
  const band = Math.max(0.1 * most, QUIET);
  let last = to - 1;
  while (last > from && !(Math.abs(trace[last] - command[last]) > band)) last--;
  return 1000 * period * (last - from);
}
