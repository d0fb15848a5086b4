// What a measured frequency response says against theory's: two residuals a frequency, of amplitude and of phase.
import { at } from "../base/at.js";
import { atan2, ln } from "../base/elementary.js";
import type { LogAxis } from "../flight/log.js";
import type { ComplexArray } from "../theory/frequency.js";
import { AXES, openPlant } from "../theory/plant.js";
import type { SteadyFlight } from "./in-flight.js";
import type { ResponseEstimate } from "./response-estimate.js";

/** Above this error, a share of the amplitude, an estimate says too little, and its logarithm is no longer normal. */
const LARGEST_ERROR = 0.35;

/** The estimate where it tells something. */
export function usablePart(estimate: ResponseEstimate): ResponseEstimate {
  const places = [...estimate.error.keys()].filter((k) => at(estimate.error, k) <= LARGEST_ERROR);
  const some = (values: Float64Array) => Float64Array.from(places, (k) => at(values, k));
  return {
    ...estimate,
    frequencies: some(estimate.frequencies),
    value: { re: some(estimate.value.re), im: some(estimate.value.im) },
    coherence: some(estimate.coherence),
    error: some(estimate.error),
  };
}

/** Rate (rad/s) per whole axis command by theory, at the frequencies (rad/s). */
export function theoryResponse({ craft, trim }: SteadyFlight, axis: LogAxis, frequencies: Float64Array): ComplexArray {
  const own = AXES.indexOf(axis);
  return at(at(openPlant(craft, trim)(frequencies), own), own);
}

/**
 * ln of measured over theory, as amplitude then phase (rad) of each frequency in turn. With equal errors of real and
 * imaginary part both have the error of the estimate, and to second order no bias.
 */
export function logRatios({ value }: Pick<ResponseEstimate, "value">, theory: ComplexArray): Float64Array {
  const ratios = new Float64Array(2 * value.re.length);
  for (let k = 0; k < value.re.length; k++) {
    const [re, im, toRe, toIm] = [at(value.re, k), at(value.im, k), at(theory.re, k), at(theory.im, k)];
    ratios[2 * k] = 0.5 * ln((re * re + im * im) / (toRe * toRe + toIm * toIm));
    ratios[2 * k + 1] = atan2(im * toRe - re * toIm, re * toRe + im * toIm);
  }
  return ratios;
}

/** The same in standard deviations. */
export const inErrors = (ratios: Float64Array, error: Float64Array): Float64Array =>
  ratios.map((ratio, k) => ratio / at(error, k >> 1));
