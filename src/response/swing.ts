// Is something still swinging at the end? Amplitude, growth and zero crossings of the calm tail, all three:
// a ratio alone takes a saturated limit cycle for calm, and a slow return is no oscillation.

import { ln } from "../base/elementary.js";

export interface Swing {
  /** Half the swing of the rate in the last part of the tail, rad/s. */
  readonly amplitude: number;
  /** 1/s; negative dies out. */
  readonly growth: number;
  /** Half-cycles seen in the tail. */
  readonly halfCycles: number;
  readonly frequency: number; // Hz, 0 where fewer than two crossings
}

const BASE = 0.002; // s: the difference over it suppresses the slow return and leaves the oscillation's growth as it is
const SHARE = 0.6; // of the tail, each of the two overlapping windows

/** Reads the tail [from, to) of a trace of rates. */
export function swingOf(trace: Float64Array, from: number, to: number, period: number): Swing {
  const lag = Math.max(1, Math.round(BASE / period));
  const length = to - from - lag;
  const window = Math.floor(SHARE * length);
  const early = energy(trace, from, lag, window);
  const late = energy(trace, from + length - window, lag, window);
  const apart = (length - window) * period;
  const growth = late > 0 && early > 0 ? ln(late / early) / 2 / apart : Number.NEGATIVE_INFINITY;
  const { crossings, first, last } = crossingsOf(trace, from, to, lag, 0.35 * Math.sqrt(Math.min(early, late)));
  const frequency = crossings > 1 ? (crossings - 1) / 2 / ((last - first) * period) : 0;
  return { amplitude: halfSwing(trace, to - Math.floor(0.4 * length), to), growth, halfCycles: crossings, frequency };
}

/** Hann-weighted mean square of the rate's difference: a whole number of cycles is not needed. */
function energy(trace: Float64Array, from: number, lag: number, window: number): number {
  let sum = 0;
  // cos(2 pi k / window) by recurrence: the same bits everywhere.
  const turn = 2 - 4 * halfAngleSquared(Math.PI / window);
  let before = 1 - 2 * halfAngleSquared(Math.PI / window);
  let cosine = 1;
  for (let k = 0; k < window; k++) {
    const difference = trace[from + k + lag] - trace[from + k];
    sum += (1 - cosine) * difference * difference;
    const next = turn * cosine - before;
    before = cosine;
    cosine = next;
  }
  return sum / window;
}

/** sin^2 of a small angle to double precision, by its series. */
function halfAngleSquared(angle: number): number {
  const a = angle * angle;
  const sine = angle * (1 - (a / 6) * (1 - (a / 20) * (1 - (a / 42) * (1 - a / 72))));
  return sine * sine;
}

function crossingsOf(trace: Float64Array, from: number, to: number, lag: number, threshold: number) {
  let side = 0;
  let crossings = 0;
  let first = 0;
  let last = 0;
  for (let k = from; k < to - lag; k++) {
    const difference = trace[k + lag] - trace[k];
    const now = difference > threshold ? 1 : difference < -threshold ? -1 : side;
    if (now !== side && side !== 0) {
      if (crossings === 0) first = k;
      last = k;
      crossings++;
    }
    side = now;
  }
  return { crossings, first, last };
}

function halfSwing(trace: Float64Array, from: number, to: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let k = from; k < to; k++) {
    if (trace[k] < low) low = trace[k];
    if (trace[k] > high) high = trace[k];
  }
  return 0.5 * (high - low);
}
