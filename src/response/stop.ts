// A commanded rate that ends: how far the craft swings back, how long it takes, how it rings.
// Step-response terms after IEEE 181 (percent of the difference between the levels; 10-90 % transition); the zero
// of the settling time is the end of the command ramp, and it lasts until the response stays within the band, as control
// textbooks have it (K. Ogata, Modern Control Engineering, 5-3; R.C. Dorf and R.H. Bishop, Modern Control Systems, 5.3;
// G.F. Franklin, J.D. Powell and A. Emami-Naeini, Feedback Control of Dynamic Systems, 3.4; all from memory).
import { ln } from "../base/elementary.js";
import type { Absence } from "./answer.js";

/** Half-width of the settling band, share of the step. */
export const BAND = 0.05;

export interface StopResponse {
  readonly overshoot: number; // %
  readonly settling: number | Absence; // ms
  readonly rebounds: number; // half-cycles outside the band
  readonly ringFrequency: number | Absence; // Hz
  readonly damping: number | Absence;
  readonly rise: number | Absence; // ms
}

/**
 * Reads a trace that goes from `level` (rad/s) to zero. `start` is where the command leaves the level, `from` where its ramp
 * ends, `to` the end of the window; instants in control periods of `period` seconds.
 */
export function stopResponse(
  trace: Float64Array,
  level: number,
  start: number,
  from: number,
  to: number,
  period: number,
): StopResponse {
  let opposite = 0;
  let inside = from; // since when the rate stays within the band
  const perLevel = 1 / level;
  for (let k = from; k < to; k++) {
    const share = trace[k] * perLevel;
    if (-share > opposite) opposite = -share;
    if (!(share <= BAND && share >= -BAND)) inside = k + 1;
  }
  const peaks = excursions(trace, level, from, to);
  const ring = ringing(peaks, to - 1, period);
  const settling = (inside - from) * period;
  const settled = (to - inside) * period >= shownFor(settling, ring.ringFrequency);
  return {
    overshoot: 100 * opposite,
    settling: settled ? 1000 * settling : "never settles in the window",
    rebounds: peaks.length,
    ...ring,
    rise: transition(trace, level, start, to, period),
  };
}

/** Where no ring is measured: share of the settling time for which the rate must then stay within the band. */
const STAY = 0.5;

/**
 * How long the rate must be seen to stay within the band before it is called settled, s: a rate that still swings is
 * within the band for a while, and a window that ends then shows nothing. Within a whole cycle of its ring it would have left again.
 * Without a ring to measure, half the time it took: a second-order response that passes through the band leaves it sooner.
 */
const shownFor = (settling: number, ringFrequency: number | Absence): number =>
  typeof ringFrequency === "number" ? 1 / ringFrequency : STAY * settling;

interface Peak {
  readonly at: number;
  readonly height: number; // share of the step
  readonly side: number; // -1 on the far side of zero, 1 on the level's
}

/** Extremes of the half-cycles that leave the band after the first passage through zero. */
function excursions(trace: Float64Array, level: number, from: number, to: number): Peak[] {
  const peaks: Peak[] = [];
  let k = from;
  while (k < to && trace[k] / level > 0) k++;
  let side = -1;
  let at = k;
  let height = 0;
  const perLevel = 1 / level;
  for (; k < to; k++) {
    const share = trace[k] * perLevel;
    if (share * side < 0) {
      if (height > BAND) peaks.push({ at, height, side });
      side = -side;
      height = 0;
    }
    if (Math.abs(share) > height) {
      height = Math.abs(share);
      at = k;
    }
  }
  if (height > BAND) peaks.push({ at, height, side });
  return peaks;
}

/** Peaks read for frequency and damping: the swings right after the stop. */
const PEAKS_READ = 5;

/** Frequency from the spacing of the peaks, damping from their decrement. */
function ringing(
  excursions: readonly Peak[],
  end: number,
  period: number,
): Pick<StopResponse, "ringFrequency" | "damping"> {
  // A half-cycle that the window cuts off has no peak yet; after one that stayed within the band the alternation is lost.
  const complete = excursions.filter(({ at }) => at < end).slice(0, PEAKS_READ);
  const repeat = complete.findIndex(({ side }, i) => i > 0 && side === complete[i - 1].side);
  const peaks = repeat < 0 ? complete : complete.slice(0, repeat);
  if (peaks.length < 2) {
    const reason = peaks.length === 0 ? "no swing to measure" : "too few swings to count";
    return { ringFrequency: reason, damping: reason };
  }
  const decrement = decrementOf(peaks.map(({ height }) => height));
  return {
    ringFrequency: (peaks.length - 1) / 2 / ((peaks[peaks.length - 1].at - peaks[0].at) * period),
    damping: decrement / Math.sqrt(Math.PI * Math.PI + decrement * decrement),
  };
}

/**
 * Logarithmic decrement per half-cycle of alternating peaks. From three on it is read from swings, peak to opposite peak:
 * a slow return under the ringing lifts one and lowers the other, and leaves their sum.
 */
function decrementOf(heights: readonly number[]): number {
  const swings = heights.slice(1).map((height, i) => heights[i] + height);
  const read = swings.length > 1 ? swings : heights;
  return ln(read[0] / read[read.length - 1]) / (read.length - 1);
}

/** From the last 90 % before the first 10 % of the step to that, between samples by straight lines. */
function transition(trace: Float64Array, level: number, start: number, to: number, period: number): number | Absence {
  let low = start;
  while (low < to && trace[low] / level > 0.1) low++;
  if (low === start || low === to) return "never reaches the level";
  let high = low;
  while (high > 0 && trace[high - 1] / level <= 0.9) high--;
  if (high === 0) return "never reaches the level";
  const passage = (k: number, share: number): number =>
    k - (share - trace[k] / level) / ((trace[k - 1] - trace[k]) / level);
  return 1000 * period * (passage(low, 0.1) - passage(high, 0.9));
}
