// What disturbed air or a moving throttle does to the craft: attitude deviation is the integral of the rate error.
import { lineThrough } from "./line.js";
import { Passages } from "./passages.js";
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

/** Largest departure from the first value, rad. */
export function largest(angle: Float64Array): number {
  let most = 0;
  for (let k = 0; k < angle.length; k++) most = Math.max(most, Math.abs(angle[k]));
  return most;
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
): number {
  let sum = 0;
  let squares = 0;
  for (let k = from; k < to; k++) {
    const error = trace[k] - command[k];
    sum += error;
    squares += error * error;
  }
  const mean = sum / (to - from);
  const rms = Math.sqrt(Math.max(0, squares / (to - from) - mean * mean));
  const passages = new Passages(COUNTS * rms);
  for (let k = from; k < to; k++) passages.see(trace[k] - command[k] - mean, k);
  return passages.frequency(period);
}

/**
 * Time until the rate error stays within a tenth of its largest value, or within what counts as quiet, ms; the window's
 * length where it never does.
 */
export function recoveryTime(
  trace: Float64Array,
  command: Float64Array,
  from: number,
  to: number,
  period: number,
): number {
  let most = 0;
  for (let k = from; k < to; k++) most = Math.max(most, Math.abs(trace[k] - command[k]));
  const band = Math.max(0.1 * most, QUIET);
  let last = from;
  for (let k = from; k < to; k++) if (Math.abs(trace[k] - command[k]) > band) last = k;
  return 1000 * period * (last - from);
}
