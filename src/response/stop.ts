// A commanded rate that ends: how far the craft swings back, how long it takes, how it rings.
// Step-response terms after IEEE 181 (percent of the difference between the levels; 10-90 % transition); the zero
// of the settling time is the end of the command ramp, as control textbooks have it.
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
export function stopResponse(trace: Float64Array, level: number, start: number, from: number, to: number, period: number): StopResponse {
  let opposite = 0;
  let lastOutside = -1;
  for (let k = from; k < to; k++) {
    const share = trace[k] / level;
    if (-share > opposite) opposite = -share;
    if (share > BAND || share < -BAND) lastOutside = k;
  }
  const peaks = excursions(trace, level, from, to);
  const settled = lastOutside < to - 1;
  return {
    overshoot: 100 * opposite,
    settling: settled ? 1000 * period * (lastOutside < 0 ? 0 : lastOutside + 1 - from) : "never settles in the window",
    rebounds: peaks.length,
    ...ringing(peaks, period),
    rise: transition(trace, level, start, to, period),
  };
}

interface Peak {
  readonly at: number;
  readonly height: number; // share of the step
}

/** Extremes of the half-cycles that leave the band after the first passage through zero. */
function excursions(trace: Float64Array, level: number, from: number, to: number): Peak[] {
  const peaks: Peak[] = [];
  let k = from;
  while (k < to && trace[k] / level > 0) k++;
  let side = -1;
  let at = k;
  let height = 0;
  for (; k < to; k++) {
    const share = trace[k] / level;
    if (share * side < 0) {
      if (height > BAND) peaks.push({ at, height });
      side = -side;
      height = 0;
    }
    if (Math.abs(share) > height) {
      height = Math.abs(share);
      at = k;
    }
  }
  if (height > BAND) peaks.push({ at, height });
  return peaks;
}

/** Frequency from the spacing of the peaks, damping from the logarithmic decrement per half-cycle. */
function ringing(peaks: readonly Peak[], period: number): Pick<StopResponse, "ringFrequency" | "damping"> {
  const first = peaks[0];
  const last = peaks[Math.min(peaks.length, 5) - 1];
  if (first === undefined || last === undefined || last === first) {
    const reason = peaks.length === 0 ? "no swing to measure" : "too few swings to count";
    return { ringFrequency: reason, damping: reason };
  }
  const halves = Math.min(peaks.length, 5) - 1;
  const decrement = ln(first.height / last.height) / halves;
  return {
    ringFrequency: halves / 2 / ((last.at - first.at) * period),
    damping: decrement / Math.sqrt(Math.PI * Math.PI + decrement * decrement),
  };
}

/** From 90 % to 10 % of the step, between samples by straight lines. */
function transition(trace: Float64Array, level: number, start: number, to: number, period: number): number | Absence {
  const passes = (share: number, after: number): number => {
    for (let k = Math.max(1, Math.ceil(after)); k < to; k++) {
      const [before, now] = [trace[k - 1] / level, trace[k] / level];
      if (now <= share) return before > share ? k - (share - now) / (before - now) : k;
    }
    return to;
  };
  if (trace[start] / level < 0.9) return "never reaches the level";
  const high = passes(0.9, start);
  const low = passes(0.1, high);
  return low >= to ? "never reaches the level" : 1000 * period * (low - high);
}
