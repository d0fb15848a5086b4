// What theory lacks: a delay, or a resonance, in what is left between a measured response and the likeliest craft's.
import { at } from "../base/at.js";
import { exp, ln } from "../base/elementary.js";
import type { ResponseOfAxis } from "./format.js";

/** Of one response: ln of amplitude and phase (rad) of measured over theory, and the errors as widened for misfit. */
export interface Left {
  readonly frequencies: Float64Array; // rad/s
  readonly amplitude: readonly number[];
  readonly phase: readonly number[];
  readonly error: readonly number[];
}

const HERTZ = 2 * Math.PI;
/** Standard deviations from which on chance is no explanation. */
const CLEAR = 4;
const LEAST_DELAY = 1e-4; // s
const LEAST_PEAK = ln(1.15);
/** A resonance shows in as many neighbours at once. */
const NEIGHBOURS = 3;

export const notModelled = (left: Left): ResponseOfAxis["notModelled"] => [...delayOf(left), ...peakOf(left)];

function delayOf({ frequencies, phase, error }: Left): ResponseOfAxis["notModelled"] {
  let [product, square] = [0, 0];
  for (const [k, w] of frequencies.entries()) {
    const weight = 1 / at(error, k) ** 2;
    product -= weight * w * at(phase, k);
    square += weight * w * w;
  }
  const [delay, deviation] = [product / square, 1 / Math.sqrt(square)];
  if (!(Math.abs(delay) > Math.max(LEAST_DELAY, CLEAR * deviation))) return [];
  const size = `${(1000 * Math.abs(delay)).toFixed(1)} ms`;
  const highest = at(frequencies, frequencies.length - 1) / HERTZ;
  const text =
    delay > 0
      ? `a delay of ${size} that the model lacks: filters of the log or of the motor controller, or more latency than its spread allows`
      : `${size} less delay than the model has, within its spread`;
  return [{ frequency_Hz: highest, text }];
}

/** The strongest place at which amplitude stands out over several neighbours. */
function peakOf({ frequencies, amplitude, error }: Left): ResponseOfAxis["notModelled"] {
  let best: { readonly k: number; readonly size: number; readonly deviations: number } | null = null;
  for (let k = 1; k + 1 < frequencies.length; k++) {
    const near = [k - 1, k, k + 1];
    const weights = near.map((j) => 1 / at(error, j) ** 2);
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const size = near.reduce((sum, j, n) => sum + at(weights, n) * at(amplitude, j), 0) / total;
    const deviations = Math.abs(size) * Math.sqrt(total / NEIGHBOURS);
    if (deviations > (best?.deviations ?? 0)) best = { k, size, deviations };
  }
  if (best === null || best.deviations < CLEAR || Math.abs(best.size) < LEAST_PEAK) return [];
  const frequency = at(frequencies, best.k) / HERTZ;
  const share = Math.round(100 * Math.abs(exp(best.size) - 1));
  const text = `${share} % ${best.size > 0 ? "more" : "less"} than the model at ${frequency.toFixed(0)} Hz: a resonance of frame or mounting would look like this`;
  return [{ frequency_Hz: frequency, text }];
}
