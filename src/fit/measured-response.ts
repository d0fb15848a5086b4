// The response of a real axis, from its command to its rate, as a log tells it: one estimate per range of throttle.
import type { Mixer } from "../airframe/mixer.js";
import { at } from "../base/at.js";
import type { Complex } from "../base/fourier.js";
import type { FlightLog, LogAxis } from "../flight/log.js";
import type { TimeRange } from "./even-grid.js";
import {
  differenceEstimate,
  independentWindows,
  type LineEstimate,
  lineEstimate,
  minus,
  over,
  type Pair,
  type Sample,
  smoothed,
  square,
} from "./line-estimate.js";
import type { Method, ResponseEstimate } from "./response-estimate.js";
import { mean, type WindowSpectra, type Windows, windowsOf } from "./windows.js";

/** rad/s */
export interface Band {
  readonly lowest: number;
  readonly highest: number;
}

const HERTZ = 2 * Math.PI;

/** Below 1.5 Hz trim and drift speak; above 60 Hz no craft's axis answers its command with much more than noise. */
export const RESPONSE_BAND: Band = { lowest: 1.5 * HERTZ, highest: 60 * HERTZ };

/** A line joins at this coherence; weaker ones would be chosen by their luck. */
const LEAST_COHERENCE = 0.5;
/** Above this share an error is no longer that of a normal number, in amplitude or phase. */
const MOST_ERROR = 0.5;
/** Windows without which neither scatter nor loud and quiet halves mean anything. */
const LEAST_WINDOWS = 6;
/** Lines to each side over which scatter and bias are averaged. */
const REACH = 4;
/**
 * Hann's taper makes the errors of neighbouring lines alike: correlation 4/9, of those two apart 1/36. Errors are larger by
 * this factor, so that a fit to all lines, which takes them for independent, gets the spreads that it should.
 */
export const ALIKE = Math.sqrt(1 + 2 * (4 / 9 + 1 / 36));

export interface MeasuringOptions {
  /** Seconds of the log that stay out, to be predicted. */
  readonly apart?: TimeRange | null;
  readonly band?: Band;
}

/**
 * Rate (rad/s) per unit of axis command, in the sense of theory's `openPlant`, by ranges of mean duty; none where the log
 * lacks a column or is too short or too quiet to tell. Where the commanded rate was logged it is the instrument; else
 * the estimate is direct, and its error holds what loud and quiet windows say of its bias: a loop without excitation shows
 * -1/C of its own controller, at full coherence (Ljung, System Identification; from memory).
 */
export function measuredResponse(
  log: FlightLog,
  mixer: Mixer,
  axis: LogAxis,
  { apart = null, band = RESPONSE_BAND }: MeasuringOptions = {},
): ResponseEstimate[] {
  const windows = windowsOf(log, mixer, axis, { apart });
  return byDuty(windows.each).flatMap((each) => {
    const estimates = methodsFor(each).map((method) => estimate({ ...windows, each }, method, band));
    const best = estimates.find(({ frequencies }) => frequencies.length > 0);
    return best === undefined ? [] : [best];
  });
}

const methodsFor = (each: readonly WindowSpectra[]): readonly Method[] =>
  each.every(({ wanted }) => wanted !== null) ? ["instrument", "direct"] : ["direct"];

/** Duty that one range spans at least, and windows in it: with fewer the errors tell nothing. */
const RANGE = 0.1;
const WINDOWS_PER_RANGE = 10;

/** Windows sorted by duty into ranges of equally many. */
function byDuty(each: readonly WindowSpectra[]): WindowSpectra[][] {
  if (each.length < LEAST_WINDOWS) return [];
  const sorted = [...each].sort((a, b) => a.duty - b.duty || a.from - b.from);
  const quantile = (share: number): number => at(sorted, Math.round(share * (sorted.length - 1))).duty;
  const wide = Math.floor((quantile(0.9) - quantile(0.1)) / RANGE);
  const ranges = Math.max(1, Math.min(wide, Math.floor(sorted.length / WINDOWS_PER_RANGE)));
  const edge = (k: number): number => Math.round((k * sorted.length) / ranges);
  return Array.from({ length: ranges }, (_, k) => sorted.slice(edge(k), edge(k + 1)));
}

interface Line {
  readonly frequency: number;
  readonly samples: readonly Sample[];
  readonly found: LineEstimate;
}

function estimate({ spacing, each }: Windows, method: Method, band: Band): ResponseEstimate {
  const lines = linesIn(band, spacing, each).map((index): Line => {
    const samples = each.map((window) => sampleAt(window, method, index));
    return { frequency: index * spacing, samples, found: lineEstimate(samples) };
  });
  const errors = widened(lines, method, wanderOf(each));
  const used = lines.flatMap((line, k) => {
    const error = at(errors, k);
    return line.found.coherence >= LEAST_COHERENCE && error <= MOST_ERROR ? [{ ...line, error }] : [];
  });
  const volts = each.flatMap(({ voltage }) => (voltage === null ? [] : [voltage]));
  return {
    method,
    frequencies: Float64Array.from(used, ({ frequency }) => frequency),
    value: {
      re: Float64Array.from(used, ({ found }) => found.value[0]),
      im: Float64Array.from(used, ({ found }) => found.value[1]),
    },
    coherence: Float64Array.from(used, ({ found }) => found.coherence),
    error: Float64Array.from(used, ({ error }) => error),
    windows: independentWindows(each.length),
    duty: mean(each.map(({ duty }) => duty)),
    voltage: volts.length === each.length ? mean(volts) : null,
  };
}

function linesIn({ lowest, highest }: Band, spacing: number, each: readonly WindowSpectra[]): number[] {
  // Half the sampling rate is the last line; the two thirds below it are free of what folds over.
  const last = Math.min(highest / spacing, (2 / 3) * ((each[0]?.rate.re.length ?? 1) - 1));
  const first = Math.ceil(lowest / spacing);
  return Array.from({ length: Math.max(0, Math.floor(last) - first + 1) }, (_, k) => first + k);
}

function sampleAt({ command, rate, wanted }: WindowSpectra, method: Method, index: number): Sample {
  const pair = ({ re, im }: Complex): Pair => [at(re, index), at(im, index)];
  const instrument = method === "instrument" && wanted !== null ? wanted : command;
  return { command: pair(command), rate: pair(rate), instrument: pair(instrument) };
}

/** How far the duty wanders within windows, as a share of it: authority grows with duty, about in proportion. */
const wanderOf = (each: readonly WindowSpectra[]): number =>
  Math.sqrt(mean(each.map(({ duty, wander }) => (wander / duty) ** 2)));

/** Errors at least as large as the scatter between windows, and with the bias that a direct estimate may have. */
function widened(lines: readonly Line[], method: Method, wander: number): number[] {
  const excess = smoothed(
    lines.map(({ found }) => (found.scatter / found.error) ** 2),
    REACH,
  );
  const bias = method === "direct" ? biasSquares(lines) : lines.map(() => 0);
  return lines.map(
    ({ found }, k) =>
      ALIKE * Math.sqrt(found.error ** 2 * Math.max(1, at(excess, k)) + (at(bias, k) + wander * wander) / 2),
  );
}

/**
 * What the loop's own noise may have done to a direct estimate, squared, as a share of the squared amplitude. Noise that
 * comes back through the controller C makes G of G - r (G + 1/C), r being its share of the command's power. What louder
 * windows have more than quieter ones is free of it where the noise is steady: the distance to that is the bias to first
 * order. The quietest quarter bounds r, and where it is no quieter than the rest, nothing tells excitation from noise.
 */
function biasSquares(lines: readonly Line[]): number[] {
  const ranked = byLoudness(lines);
  const half = ranked.slice(ranked.length >> 1);
  const quieter = ranked.slice(0, ranked.length >> 1);
  const quietest = ranked.slice(0, Math.max(2, ranked.length >> 2));
  const of = (samples: readonly Sample[], windows: readonly number[]) => windows.map((window) => at(samples, window));
  const power = (samples: readonly Sample[]) => mean(samples.map(({ command }) => square(command)));
  const shares = smoothed(
    lines.map(({ samples }) => power(of(samples, quietest)) / power(samples)),
    REACH,
  );
  const differences = lines.map(({ samples, found }) => {
    const other = differenceEstimate(of(samples, half), of(samples, quieter));
    return over(minus(other, found.value), found.value);
  });
  // A bias changes slowly with frequency, chance does not.
  const [re, im] = [0, 1].map((part) =>
    smoothed(
      differences.map((difference) => at(difference, part)),
      REACH,
    ),
  );
  return lines.map((_, k) => at(re ?? [], k) ** 2 + at(im ?? [], k) ** 2 + unruledOut(at(shares, k)) ** 2);
}

/**
 * As a share of the amplitude: a bound grown from the quietest quarter's share of the power. It is some 0.75 of a loop
 * moved by steady noise alone, whose lines then drop out, and 0.1 to 0.4 where a pilot moves the sticks all the time (real
 * logs), of which noise is a small part: hence the third power.
 */
const unruledOut = (share: number): number => (share < 1 ? share ** 3 / (1 - share) : Number.POSITIVE_INFINITY);

/** Windows from the quietest to the loudest command, every line counting alike. */
function byLoudness(lines: readonly Line[]): number[] {
  const totals = lines.map(({ samples }) => samples.reduce((sum, { command }) => sum + square(command), 0));
  const level = (window: number): number =>
    lines.reduce((sum, { samples }, k) => sum + square(at(samples, window).command) / at(totals, k), 0);
  const levels = (lines[0]?.samples ?? []).map((_, window) => level(window));
  return levels.map((_, window) => window).sort((a, b) => at(levels, a) - at(levels, b) || a - b);
}
