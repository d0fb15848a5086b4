// A log cut into windows, and the spectrum of each: Hann's taper, half overlapping (P.D. Welch, IEEE Trans. Audio
// Electroacoustics AU-15, 1967; from memory).
import type { Mixer } from "../airframe/mixer.js";
import { at, numberAt } from "../base/at.js";
import { cos } from "../base/elementary.js";
import type { Complex } from "../base/fourier.js";
import type { FlightLog, LogAxis } from "../flight/log.js";
import { allDuties, commandShares, mixed } from "./axis-command.js";
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

/** Of one axis; no windows where the log lacks a column for it. */
export function windowsOf(
  log: FlightLog,
  mixer: Mixer,
  axis: LogAxis,
  { apart = null }: { readonly apart?: TimeRange | null } = {},
): Windows {
  const length = nearestPowerOfTwo(WINDOW / log.step);
  const spacing = (2 * Math.PI) / (length * log.step);
  const duties = allDuties(log);
  const rate = log.rate[axis];
  if (duties === null || rate === null) return { spacing, each: [] };
  const wanted = log.command[axis];
  const channels = [
    ...duties,
    rate,
    ...(wanted === null ? [] : [wanted]),
    ...(log.voltage === null ? [] : [log.voltage]),
  ];
  const shares = commandShares(mixer, axis);
  const spectrum = taperedSpectrum(length);
  const cut = (piece: EvenPiece, first: number): WindowSpectra => {
    const parts = piece.channels.map((channel) => channel.subarray(first, first + length));
    const rotors = parts.slice(0, duties.length);
    const [ownRate, ...rest] = parts.slice(duties.length);
    const asked = wanted === null ? null : rest[0];
    const volts = log.voltage === null ? null : rest.at(-1);
    const collective = mixed(
      rotors,
      rotors.map(() => 1 / rotors.length),
    );
    return {
      from: piece.from + first * piece.step,
      duty: mean(collective),
      wander: deviation(collective),
      voltage: volts ? mean(volts) : null,
      command: spectrum(mixed(rotors, shares)),
      rate: spectrum(ownRate ?? new Float64Array(length)),
      wanted: asked ? spectrum(asked) : null,
    };
  };
  const each = evenPieces(log, channels, { apart }).flatMap((piece) =>
    starts(piece.length, length).map((first) => cut(piece, first)),
  );
  return { spacing, each };
}

function starts(length: number, window: number): number[] {
  const count = length < window ? 0 : Math.floor((length - window) / (window / 2)) + 1;
  return Array.from({ length: count }, (_, k) => (k * window) / 2);
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
