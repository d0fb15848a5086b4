// What is left of the rate as a trial ends, by frequency: how much of it is the loop's own, how much the rotors' vibration.
import { numberAt } from "../../base/at.js";
import { empty, fourier } from "../../base/fourier.js";

/** Hz */
export interface Band {
  readonly from: number;
  readonly to: number;
}

export interface Spectrum {
  readonly step: number; // Hz, between two values
  /** rad/s: the amplitude of a steady sine of that frequency; from 0 Hz up. */
  readonly amplitude: Float64Array;
  /** Where the rotors' lines lie. */
  readonly lines: readonly Band[];
  readonly loop: Share;
  readonly rotors: Share;
}

export interface Share {
  readonly rms: number; // rad/s
  readonly strongest: number; // Hz
}

/** No more samples are looked at: the last of them, of a tail that is longer. */
const MOST = 2 ** 14;
/** Times as many frequencies as samples: a sine between two of them would read up to a seventh low. */
const FINER = 4;
/** Bins on either side of a frequency into which a Hann window smears it. */
const SMEAR = 2;

/** Of the samples from `from` to `to`, their straight drift taken out, in the Hann window (F. J. Harris, Proc. IEEE 66 (1978)). */
export function spectrumOf(
  trace: Float64Array,
  { from, to }: { readonly from: number; readonly to: number },
  period: number,
  rotors: readonly Band[],
): Spectrum {
  const samples = withoutDrift(trace.subarray(Math.max(from, to - MOST), to));
  const length = FINER * 2 ** Math.ceil(Math.log2(Math.max(2, samples.length)));
  const padded = empty(length);
  let [weights, squares] = [0, 0];
  for (const [n, value] of samples.entries()) {
    const weight = 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / samples.length);
    padded.re[n] = weight * value;
    weights += weight;
    squares += weight * weight;
  }
  const { re, im } = fourier(padded);
  const step = 1 / (length * period);
  const amplitude = Float64Array.from({ length: length / 2 }, (_, k) => {
    return (2 * Math.hypot(numberAt(re, k), numberAt(im, k))) / weights;
  });
  const smear = SMEAR / (samples.length * period);
  const lines = rotors.map((band) => ({ from: band.from - smear, to: band.to + smear }));
  const ofRotors = (k: number) => lines.some((line) => k * step >= line.from && k * step <= line.to);
  // A sum of squared magnitudes over the window's own: Parseval, one-sided.
  const power = (weights * weights) / 2 / length / squares;
  const share = (belongs: (k: number) => boolean): Share => {
    let [sum, strongest] = [0, 0];
    for (const [k, value] of amplitude.entries()) {
      if (!belongs(k)) continue;
      sum += value * value;
      if (value > numberAt(amplitude, strongest) || !belongs(strongest)) strongest = k;
    }
    return { rms: Math.sqrt(sum * power), strongest: strongest * step };
  };
  return { step, amplitude, lines, loop: share((k) => !ofRotors(k)), rotors: share(ofRotors) };
}

function withoutDrift(values: Float64Array): Float64Array {
  const middle = (values.length - 1) / 2;
  let [sum, moment, spread] = [0, 0, 0];
  for (const [n, value] of values.entries()) {
    sum += value;
    moment += (n - middle) * value;
    spread += (n - middle) ** 2;
  }
  const [mean, slope] = [sum / values.length, moment / (spread || 1)];
  return values.map((value, n) => value - mean - slope * (n - middle));
}

/** How far rotors of one craft turn apart from their simulated speeds: the kernel's own vibration has them beat so. */
const APART = 0.03;

/** Bands of the rotors' vibration lines (harmonics of turning, 1) while they turn between the speeds in [from, to). */
export function rotorBands(
  speeds: readonly Float64Array[],
  { from, to }: { readonly from: number; readonly to: number },
  harmonics: readonly number[],
): Band[] {
  let [low, high] = [Number.POSITIVE_INFINITY, 0];
  for (const series of speeds)
    for (const speed of series.subarray(from, to)) {
      low = Math.min(low, speed);
      high = Math.max(high, speed);
    }
  const turns = 2 * Math.PI;
  if (!(high >= low)) return [];
  return [...new Set(harmonics)].map((harmonic) => ({
    from: (harmonic * low * (1 - APART)) / turns,
    to: (harmonic * high * (1 + APART)) / turns,
  }));
}
