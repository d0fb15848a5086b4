// The response of a real axis, from its command to its rate, as a log tells it: one estimate per range of throttle.
import type { Mixer } from "../airframe/mixer.js";
import { at } from "../base/at.js";
import type { FlightLog, LogAxis } from "../flight/log.js";
import { against } from "./contradiction.js";
import type { TimeRange } from "./even-grid.js";
import { leftOver, samplesBy } from "./instruments.js";
import { independentWindows, type LineEstimate, lineEstimate, smoothed } from "./line-estimate.js";
import type { Method, ResponseEstimate } from "./response-estimate.js";
import { mean, type WindowSpectra, type Windows, windowsOf } from "./windows.js";

/** rad/s */
export interface Band {
  readonly lowest: number;
  readonly highest: number;
}

const HERTZ = 2 * Math.PI;

/** Below 1.5 Hz trim and drift speak; above 60 Hz no craft's axis answers its command with much more than noise. */
const RESPONSE_BAND: Band = { lowest: 1.5 * HERTZ, highest: 60 * HERTZ };

/** Share by which windows blur a response: 1 to 3 % in simulated loops almost free of noise. */
const RESOLUTION = 0.03;
/** Weaker lines would be chosen by their luck. */
const LEAST_COHERENCE = 0.5;
/** Above this share an error is no longer that of a normal number, in amplitude or phase. */
const MOST_ERROR = 0.4;
/** Windows without which neither scatter nor loud and quiet halves mean anything. */
const LEAST_WINDOWS = 6;
/**
 * Below this ratio of what the instrument moves of the command to what it does not, per window, an estimate leans
 * towards the plain one that it should replace (D. Staiger and J.H. Stock, Econometrica 65, 1997; from memory).
 */
const LEAST_STRENGTH = 30;

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
 * lacks a column or is too short or too quiet to tell. With the commanded rate as instrument where it was logged and moved;
 * else by the command alone, unless loud windows against quiet ones contradict it, which then take its place.
 */
export function measuredResponse(
  log: FlightLog,
  mixer: Mixer,
  axis: LogAxis,
  { apart = null, band = RESPONSE_BAND }: MeasuringOptions = {},
): ResponseEstimate[] {
  const windows = windowsOf(log, mixer, axis, { apart });
  return byDuty(windows.each)
    .map((each) => estimate({ ...windows, each }, band))
    .filter(({ frequencies }) => frequencies.length > 0);
}

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

export interface Line extends LineEstimate {
  readonly frequency: number;
  /** Standard deviation of the value as a share of it, everything counted. */
  readonly whole: number;
}

interface Measured {
  readonly method: Method;
  readonly lines: readonly Line[];
}

function estimate({ spacing, each }: Windows, band: Band): ResponseEstimate {
  const { method, lines } = measured(spacing, each, band);
  const volts = each.flatMap(({ voltage }) => (voltage === null ? [] : [voltage]));
  return {
    method,
    frequencies: Float64Array.from(lines, ({ frequency }) => frequency),
    value: {
      re: Float64Array.from(lines, ({ value }) => value[0]),
      im: Float64Array.from(lines, ({ value }) => value[1]),
    },
    coherence: Float64Array.from(lines, ({ coherence }) => coherence),
    error: Float64Array.from(lines, ({ whole }) => whole),
    windows: independentWindows(each.length),
    duty: mean(each.map(({ duty }) => duty)),
    voltage: volts.length === each.length ? mean(volts) : null,
  };
}

function measured(spacing: number, each: readonly WindowSpectra[], band: Band): Measured {
  const by = (method: Method): readonly Line[] => linesOf(spacing, each, method, band);
  if (each.every(({ wanted }) => wanted !== null)) {
    const lines = telling(by("commanded rate"), LEAST_STRENGTH);
    if (lines.length > 0) return { method: "commanded rate", lines };
  }
  const { contradicted, lines } = against(by("command alone"), by("loud against quiet"));
  // Loud against quiet has its own doubt: the command is part of its own instrument, however weak the contrast.
  return { method: contradicted ? "loud against quiet" : "command alone", lines: telling(lines, 0) };
}

/** Judged by what neighbours say together: a line that is strong by chance is strong in its value as well. */
function telling(lines: readonly Line[], leastStrength: number): readonly Line[] {
  const errors = smoothed(lines.map(({ whole }) => whole * whole));
  const coherences = smoothed(lines.map(({ coherence }) => coherence));
  const weaknesses = smoothed(lines.map(({ strength }) => 1 / strength));
  return lines.filter(
    (_, k) =>
      at(errors, k) <= MOST_ERROR * MOST_ERROR &&
      at(coherences, k) >= LEAST_COHERENCE &&
      at(weaknesses, k) * leastStrength <= 1,
  );
}

/** Errors at least as large as the scatter between windows, and with what throttle and noise may have done. */
function linesOf(spacing: number, each: readonly WindowSpectra[], method: Method, band: Band): Line[] {
  const indices = linesIn(band, spacing, each);
  const samplesAt = samplesBy(method, each, indices);
  const found = indices.map((index) => lineEstimate(samplesAt(index)));
  const excess = smoothed(found.map(({ scatter, error }) => (scatter / error) ** 2));
  const noise = leftOver(method, each, indices);
  const wander = wanderOf(each);
  const other = (noise: number): number => (noise ** 2 + wander ** 2) / 2 + RESOLUTION ** 2;
  return found.map((line, k) => {
    const random = line.error ** 2 * Math.max(1, at(excess, k));
    return { ...line, frequency: at(indices, k) * spacing, whole: ALIKE * Math.sqrt(random + other(at(noise, k))) };
  });
}

function linesIn({ lowest, highest }: Band, spacing: number, each: readonly WindowSpectra[]): number[] {
  // Half the sampling rate is the last line; the two thirds below it are free of what folds over.
  const last = Math.min(highest / spacing, (2 / 3) * ((each[0]?.rate.re.length ?? 1) - 1));
  const first = Math.ceil(lowest / spacing);
  return Array.from({ length: Math.max(0, Math.floor(last) - first + 1) }, (_, k) => first + k);
}

/** How far the duty wanders within windows, as a share of it: authority grows with duty, about in proportion. */
const wanderOf = (each: readonly WindowSpectra[]): number =>
  Math.sqrt(mean(each.map(({ duty, wander }) => (wander / duty) ** 2)));
