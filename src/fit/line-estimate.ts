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
  readonly coherence: number;
  /** Standard deviation as a share of the amplitude, of each of real and imaginary part along it: by the formula. */
  readonly error: number;
  /** The same from the scatter between windows. */
  readonly scatter: number;
}

const times = ([a, b]: Pair, [c, d]: Pair): Pair => [a * c - b * d, a * d + b * c];
const mirrored = ([a, b]: Pair): Pair => [a, -b];
export const square = ([a, b]: Pair): number => a * a + b * b;
export const minus = ([a, b]: Pair, [c, d]: Pair): Pair => [a - c, b - d];
export const over = (a: Pair, b: Pair): Pair => {
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
 * System Identification; both from memory). One average is spent on H itself. The coherence is the c that gives this error.
 */
export function lineEstimate(samples: readonly Sample[]): LineEstimate {
  const { toCommand, toRate } = sumsOf(samples);
  const value = over(toRate, toCommand);
  const noise = samples.reduce((sum, { rate, command }) => sum + square(minus(rate, times(value, command))), 0);
  const instrument = samples.reduce((sum, sample) => sum + square(sample.instrument), 0);
  const ratio = (noise * instrument) / square(toRate);
  const averages = independentWindows(samples.length);
  return {
    value,
    coherence: 1 / (1 + ratio),
    error: Math.sqrt(ratio / (2 * (averages - 1))),
    scatter: Math.sqrt((jackknifed(samples, { toCommand, toRate }) * samples.length) / averages / (2 * square(value))),
  };
}

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

/**
 * The response from what the louder windows have more than the quieter ones, per window: a disturbance that is alike in all
 * of them, and comes back through the loop, drops out of both differences.
 */
export function differenceEstimate(loud: readonly Sample[], quiet: readonly Sample[]): Pair {
  const [one, other] = [sumsOf(loud), sumsOf(quiet)];
  const per = (sum: Pair, count: number): Pair => [sum[0] / count, sum[1] / count];
  const less = (key: keyof Sums): Pair => minus(per(one[key], loud.length), per(other[key], quiet.length));
  return over(less("toRate"), less("toCommand"));
}

/** The mean of each value with its neighbours, so many to each side; fewer at the ends. */
export const smoothed = (values: readonly number[], reach: number): number[] =>
  values.map((_, k) => {
    const near = values.slice(Math.max(0, k - reach), k + reach + 1);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  });
