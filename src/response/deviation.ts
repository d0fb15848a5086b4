// What disturbed air or a moving throttle does to the craft: attitude deviation is the integral of the rate error.
import { passagesOf } from "./passages.js";
import { lengths, type Reader, type Traced } from "./reader.js";
import * as s from "./sums.js";
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
  /**
   * Time until the rate error stays within a tenth of its largest value, or within what counts as quiet, ms; the window's
   * length where it never does.
   */
  readonly recovery: number;
}

/** Size of an attitude kick in the window, and the time to recover from it. */
export function kickOf(reader: Reader, command: Float64Array, from: number, to: number, period: number): Kick {
  reader.carryOut({ name: "kick", shared: command, given: [...lengths(to - from), QUIET], counts: [from, to] });
  return {
    angle: 0.5 * period * reader.sum(s.LARGEST_DEVIATION),
    recovery: 1000 * period * reader.sum(s.LAST_BEYOND),
  };
}

export interface Wobble {
  /** Rms of the attitude deviation about its best straight line, rad: a drift is not a wobble. */
  readonly rms: number;
  /** Mean frequency, Hz, from the passages of the rate error through its mean; 0 where too few. */
  readonly frequency: number;
}

/** Share of the rate error's rms that a half-cycle must exceed. */
const PASSAGE_SHARE = 0.1;

export function wobbleOf(
  { trace, reader }: Traced,
  command: Float64Array,
  from: number,
  to: number,
  period: number,
): Wobble {
  const length = to - from;
  reader.carryOut({ name: "wobble", shared: command, given: lengths(length), counts: [from, to] });
  const mean = reader.sum(s.ERROR_SUM) / length;
  const errorRms = Math.sqrt(Math.max(0, reader.sum(s.ERROR_SQUARES) / length - mean * mean));
  const passages = passagesOf(trace.subarray(from, to), command.subarray(from, to), PASSAGE_SHARE * errorRms, mean);
  return {
    rms: 0.5 * period * Math.sqrt(reader.sum(s.DEVIATION_SQUARES) / length),
    frequency: passages.frequency(period),
  };
}
