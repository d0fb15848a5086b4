// Frequency responses on a grid: complex numbers as two arrays, and grids dense enough to interpolate on.
import { exp, ln } from "../base/elementary.js";
import { recentBy } from "./once.js";

/** One complex number per frequency of a grid. */
export interface ComplexArray {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export const complexArray = (length: number): ComplexArray => ({
  re: new Float64Array(length),
  im: new Float64Array(length),
});

/** The response at each frequency (rad/s) by a rule that gives real and imaginary part. */
export function sampled(
  frequencies: Float64Array,
  rule: (frequency: number) => readonly [re: number, im: number],
): ComplexArray {
  const out = complexArray(frequencies.length);
  frequencies.forEach((frequency, k) => {
    const [re, im] = rule(frequency);
    out.re[k] = re;
    out.im[k] = im;
  });
  return out;
}

/** Element by element, as those below. */
export function product(a: ComplexArray, b: ComplexArray): ComplexArray {
  const out = complexArray(a.re.length);
  for (let k = 0; k < a.re.length; k++) {
    out.re[k] = a.re[k] * b.re[k] - a.im[k] * b.im[k];
    out.im[k] = a.re[k] * b.im[k] + a.im[k] * b.re[k];
  }
  return out;
}

/** Makes `a` the product of both. */
export function multiplyBy(a: ComplexArray, b: ComplexArray): void {
  for (let k = 0; k < a.re.length; k++) {
    const [re, im] = [a.re[k], a.im[k]];
    a.re[k] = re * b.re[k] - im * b.im[k];
    a.im[k] = re * b.im[k] + im * b.re[k];
  }
}

/** Adds the product of `a` and `b` to `sum`. */
export function addProduct(sum: ComplexArray, a: ComplexArray, b: ComplexArray): void {
  for (let k = 0; k < sum.re.length; k++) {
    sum.re[k] += a.re[k] * b.re[k] - a.im[k] * b.im[k];
    sum.im[k] += a.re[k] * b.im[k] + a.im[k] * b.re[k];
  }
}

export function quotient(a: ComplexArray, b: ComplexArray): ComplexArray {
  const out = complexArray(a.re.length);
  for (let k = 0; k < a.re.length; k++) {
    const square = b.re[k] * b.re[k] + b.im[k] * b.im[k];
    out.re[k] = (a.re[k] * b.re[k] + a.im[k] * b.im[k]) / square;
    out.im[k] = (a.im[k] * b.re[k] - a.re[k] * b.im[k]) / square;
  }
  return out;
}

/** The sum of the arrays, each times its real factor. */
export function weighted(...terms: readonly (readonly [factor: number, array: ComplexArray])[]): ComplexArray {
  const out = complexArray(terms[0][1].re.length);
  for (const [factor, { re, im }] of terms) {
    for (let k = 0; k < re.length; k++) {
      out.re[k] += factor * re[k];
      out.im[k] += factor * im[k];
    }
  }
  return out;
}

/** Share of the highest frequency above which the steps no longer widen with frequency. */
const BEND = 1 / 6;

/**
 * `count` rising frequencies from `lowest` to `highest` (rad/s, both included): steps are a constant share of the
 * frequency low down and a constant width near the top, where dead time turns the phase at a constant rate.
 * 600 from 0.5 to 12 600 rad/s step by under 3 %, and under 0.05 rad of phase per ms of dead time.
 */
export function frequencyGrid(lowest: number, highest: number, count: number): Float64Array {
  const bend = BEND * highest;
  const place = (w: number) => ln(w) + w / bend;
  const start = place(lowest);
  const step = (place(highest) - start) / (count - 1);
  const grid = new Float64Array(count);
  let w = lowest;
  for (let k = 0; k < count; k++) {
    const target = start + k * step;
    // Newton's method in ln w from the frequency before: place is convex there, five rounds reach the last digits.
    for (let round = 0; round < 5; round++) w *= exp((target - place(w)) / (1 + w / bend));
    grid[k] = w;
  }
  grid[0] = lowest;
  grid[count - 1] = highest;
  return grid;
}

const LOWEST = 0.5; // rad/s: below it a rate loop's phase no longer turns
const COUNT = 600;
const COARSE = 240;

/** Grids that are kept: a run needs three, a comparison at most six. */
const GRIDS = 16;
const recentGrids = recentBy<Float64Array>(GRIDS);

/** As frequencyGrid; the same array to all who ask for the same grid. */
export const sharedGrid = (lowest: number, highest: number, count: number): Float64Array =>
  recentGrids(`${lowest} ${highest} ${count}`, () => frequencyGrid(lowest, highest, count));

/** The grid of a sampled loop of this period (s), up to half the sampling rate; the same array for all of them. */
export const loopGrid = (period: number): Float64Array => sharedGrid(LOWEST, Math.PI / period, COUNT);

/** The same range in larger steps, for a choice among many loops. */
export const coarseGrid = (period: number): Float64Array => sharedGrid(LOWEST, Math.PI / period, COARSE);
