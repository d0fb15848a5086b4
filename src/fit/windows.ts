// A log cut into windows, and the spectrum of each: Hann's taper, half overlapping (P.D. Welch, IEEE Trans. Audio
// Electroacoustics AU-15, 1967; from memory).
import type { Mixer } from "../airframe/mixer.js";
import { at, last, numberAt } from "../base/at.js";
import { cos, sin } from "../base/elementary.js";
import { type Complex, empty } from "../base/fourier.js";
import { allDuties, commandShares, mixed } from "../flight/axis-commands.js";
import type { FlightLog, LogAxis } from "../flight/log.js";
import { type EvenPiece, evenPieces, type TimeRange } from "./even-grid.js";
import { nearestPowerOfTwo, transformOf } from "./transform.js";

export interface WindowSpectra {
  /** Second of the log in which it begins. */
  readonly from: number;
  /** Mean duty of the rotors, its standard deviation over the window, and volts where they were logged. */
  readonly duty: number;
  readonly wander: number;
  readonly voltage: number | null;
  /** Axis command, body rate (rad/s), and the rate that was commanded (rad/s) where it was logged. */
  readonly command: Complex;
  readonly rate: Complex;
  readonly wanted: Complex | null;
}

export interface Windows {
  /** rad/s between neighbouring frequencies. */
  readonly spacing: number;
  readonly each: readonly WindowSpectra[];
}

/** Seconds: half a hertz from line to line, and a window long enough for what is slowest of interest, 1.5 Hz. */
const WINDOW = 2;
/** With fewer windows than this, half as long ones tell more. */
const WANTED = 12;

/** Of one axis; no windows where the log lacks a column for it. */
export function windowsOf(
  log: FlightLog,
  mixer: Mixer,
  axis: LogAxis,
  { apart = null }: { readonly apart?: TimeRange | null } = {},
): Windows {
  const channels = channelsOf(log, axis);
  const pieces = channels === null ? [] : evenPieces(log, channels.all, { apart });
  const places = (length: number): Place[] =>
    pieces.flatMap((piece) => starts(piece.length, length).map((first) => ({ piece, first, length })));
  const long = nearestPowerOfTwo(WINDOW / log.step);
  const length = places(long).length < WANTED ? long / 2 : long;
  const spacing = (2 * Math.PI) / (length * log.step);
  if (channels === null) return { spacing, each: [] };
  const cut = cutter(channels, commandShares(mixer, axis), length);
  return { spacing, each: places(length).map(cut) };
}

interface Channels {
  readonly rotors: number;
  readonly wanted: boolean;
  readonly voltage: boolean;
  /** The rotors' duties, the rate, and the two above where they were logged. */
  readonly all: readonly Float64Array[];
}

function channelsOf({ duty, rate, command, voltage }: FlightLog, axis: LogAxis): Channels | null {
  const duties = allDuties({ duty });
  const own = rate[axis];
  if (duties === null || own === null) return null;
  const wanted = command[axis];
  const more = [wanted, voltage].filter((channel) => channel !== null);
  return { rotors: duties.length, wanted: wanted !== null, voltage: voltage !== null, all: [...duties, own, ...more] };
}

interface Place {
  readonly piece: EvenPiece;
  readonly first: number;
  readonly length: number;
}

function cutter(channels: Channels, shares: readonly number[], length: number): (place: Place) => WindowSpectra {
  const spectrum = taperedSpectrum(length);
  return ({ piece, first }) => {
    const parts = piece.channels.map((channel) => channel.subarray(first, first + length));
    const rotors = parts.slice(0, channels.rotors);
    const rest = parts.slice(channels.rotors);
    const collective = mixed(
      rotors,
      rotors.map(() => 1 / rotors.length),
    );
    return {
      from: piece.from + first * piece.step,
      duty: mean(collective),
      wander: deviation(collective),
      voltage: channels.voltage ? mean(last(rest)) : null,
      command: spectrum(mixed(rotors, shares)),
      rate: summed(spectrum(differences(at(rest, 0)))),
      wanted: channels.wanted ? spectrum(at(rest, 1)) : null,
    };
  };
}

function starts(length: number, window: number): number[] {
  const count = length < window ? 0 : Math.floor((length - window) / (window / 2)) + 1;
  return Array.from({ length: count }, (_, k) => (k * window) / 2);
}

/**
 * Each sample less the one before. A rate sums up all that was commanded, also before the window, and would leak into
 * every line by some percent; its steps remember no longer than the motors do.
 */
const differences = (samples: Float64Array): Float64Array =>
  samples.map((value, n) => value - numberAt(samples, n === 0 ? 0 : n - 1));

/** The spectrum of samples from that of their differences: over 1 - exp(-2 pi i k / N). */
function summed({ re, im }: Complex): Complex {
  const half = re.length - 1;
  const sum = empty(re.length);
  for (let k = 1; k <= half; k++) {
    const angle = (Math.PI * k) / half;
    const [a, b] = [1 - cos(angle), sin(angle)];
    const square = a * a + b * b;
    sum.re[k] = (numberAt(re, k) * a + numberAt(im, k) * b) / square;
    sum.im[k] = (numberAt(im, k) * a - numberAt(re, k) * b) / square;
  }
  return sum;
}

/** Mean and trend taken out: what is slower than the window would leak into it. */
function taperedSpectrum(length: number): (samples: Float64Array) => Complex {
  const { forward } = transformOf(length);
  const taper = Float64Array.from({ length }, (_, n) => (1 - cos((2 * Math.PI * n) / length)) / 2);
  return (samples) => {
    const level = withoutTrend(samples);
    return forward(level.map((value, n) => value * numberAt(taper, n)));
  };
}

/** The samples less their straight line of least squares. */
export function withoutTrend(samples: Float64Array): Float64Array {
  const middle = (samples.length - 1) / 2;
  const average = mean(samples);
  let tilt = 0;
  let square = 0;
  samples.forEach((value, n) => {
    tilt += (n - middle) * (value - average);
    square += (n - middle) * (n - middle);
  });
  return samples.map((value, n) => value - average - (tilt / square) * (n - middle));
}

function deviation(values: Float64Array): number {
  const average = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - average) * (value - average))));
}

export function mean(values: ArrayLike<number>): number {
  let sum = 0;
  for (let n = 0; n < values.length; n++) sum += at(values, n);
  return sum / values.length;
}
