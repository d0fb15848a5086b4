// The response at one frequency from the spectra of many windows, with its errors.

export type Pair = readonly [re: number, im: number];

/** Of one window at one frequency: command, rate, and what does not come from the rate: the instrument, or the command itself. */
export interface Sample {
  readonly command: Pair;
  readonly rate: Pair;
  readonly instrument: Pair;
}

export interface LineEstimate {
  readonly value: Pair;
  /** Of command and rate, 0 to 1. */
  readonly coherence: number;
  /** What the instrument moves of the command over what it does not, times the windows; infinite where it is the command. */
  readonly strength: number;
  /** Standard deviation as a share of the amplitude, of each of real and imaginary part along it: by the formula. */
  readonly error: number;
  /** The same from the scatter between windows. */
  readonly scatter: number;
}

const times = ([a, b]: Pair, [c, d]: Pair): Pair => [a * c - b * d, a * d + b * c];
const mirrored = ([a, b]: Pair): Pair => [a, -b];
export const square = ([a, b]: Pair): number => a * a + b * b;
const minus = ([a, b]: Pair, [c, d]: Pair): Pair => [a - c, b - d];
const over = (a: Pair, b: Pair): Pair => {
  const [re, im] = times(a, mirrored(b));
  return [re / square(b), im / square(b)];
};

interface Sums {
  /** Instrument against command and against rate. */
  readonly toCommand: Pair;
  readonly toRate: Pair;
}

function sumsOf(samples: readonly Sample[]): Sums {
  let toCommand: Pair = [0, 0];
  let toRate: Pair = [0, 0];
  for (const { instrument, command, rate } of samples) {
    const [one, other] = [times(mirrored(instrument), command), times(mirrored(instrument), rate)];
    toCommand = [toCommand[0] + one[0], toCommand[1] + one[1]];
    toRate = [toRate[0] + other[0], toRate[1] + other[1]];
  }
  return { toCommand, toRate };
}

/**
 * Averages that windows are worth where they overlap by half under Hann's taper: neighbours' spectra correlate by 1/6
 * (Welch 1967; from memory).
 */
export const independentWindows = (count: number): number => count / (1 + 2 * (1 / 6) ** 2 * (1 - 1 / count));

/**
 * H = S_zy / S_zu of instrument z, command u and rate y; z = u is the direct estimate. With the disturbance v = y - H u,
 * each component's variance is S_vv S_zz / (2 n |S_zu|^2), which for z = u is the formula of Bendat and Piersol, Random
 * Data: (1 - c) / (2 n c) of the squared amplitude at coherence c (the joint input-output method's: Soderstrom and Stoica,
 * System Identification; both from memory). One average is spent on H itself.
 */
export function lineEstimate(samples: readonly Sample[]): LineEstimate {
  const { toCommand, toRate } = sumsOf(samples);
  const value = over(toRate, toCommand);
  const noise = samples.reduce((sum, { rate, command }) => sum + square(minus(rate, times(value, command))), 0);
  const power = (key: keyof Sample) => samples.reduce((sum, sample) => sum + square(sample[key]), 0);
  const instrument = power("instrument");
  const ratio = (noise * instrument) / square(toRate);
  const moved = square(toCommand) / (instrument * power("command"));
  const averages = independentWindows(samples.length);
  return {
    value,
    coherence: square(across(samples)) / (power("command") * power("rate")),
    strength: (averages * moved) / (1 - moved),
    error: Math.sqrt(ratio / (2 * (averages - 1))),
    scatter: Math.sqrt((jackknifed(samples, { toCommand, toRate }) * samples.length) / averages / (2 * square(value))),
  };
}

/** Command against rate. */
const across = (samples: readonly Sample[]): Pair =>
  sumsOf(samples.map((sample) => ({ ...sample, instrument: sample.command }))).toRate;

/** Variance of the estimate, real and imaginary part together, from estimates that each leave one window out (J.W. Tukey 1958). */
function jackknifed(samples: readonly Sample[], { toCommand, toRate }: Sums): number {
  const count = samples.length;
  const without = samples.map(({ instrument, command, rate }): Pair => {
    const inverse = mirrored(instrument);
    return over(minus(toRate, times(inverse, rate)), minus(toCommand, times(inverse, command)));
  });
  const re = without.reduce((sum, value) => sum + value[0], 0) / count;
  const im = without.reduce((sum, value) => sum + value[1], 0) / count;
  const spread = without.reduce((sum, value) => sum + square(minus(value, [re, im])), 0);
  return ((count - 1) / count) * spread;
}

/** Lines to each side over which what is common to neighbours is averaged. */
const REACH = 4;

/** The mean of each value with its neighbours, four to each side; fewer at the ends. */
export const smoothed = (values: readonly number[]): number[] =>
  values.map((_, k) => {
    const near = values.slice(Math.max(0, k - REACH), k + REACH + 1);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  });
