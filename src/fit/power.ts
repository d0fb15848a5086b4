// Power spectra of a log's body rates, window by window, with what the rotors did meanwhile.
import { at, numberAt } from "../base/at.js";
import { cos } from "../base/elementary.js";
import { type FlightLog, LOG_AXES } from "../flight/log.js";
import { nearestPowerOfTwo, transformOf } from "./transform.js";
import { mean, withoutTrend } from "./windows.js";

export interface PowerWindow {
  /** Second of the log in which it begins. */
  readonly from: number;
  /** One-sided, (rad/s)^2/Hz, of each axis that was logged. */
  readonly power: readonly Float64Array[];
  /** Mean of each rotor's duty and speed (rad/s), and of the voltage; null where it was not logged. */
  readonly duty: readonly (number | null)[];
  readonly speed: readonly (number | null)[];
  readonly voltage: number | null;
  /** Standard deviation of the mean duty within it. */
  readonly unrest: number;
}

export interface PowerSpectra {
  /** Rows a second. */
  readonly rate: number;
  /** Hz from bin to bin; bin 0 is rest. */
  readonly spacing: number;
  readonly windows: readonly PowerWindow[];
}

/** s */
const WINDOW = 1;

/** Rows are taken as they stand, since lines drawn between them would weaken the noise; Hann's taper, half overlapping. */
export function powerSpectra(log: FlightLog): PowerSpectra {
  const length = nearestPowerOfTwo(WINDOW / log.step);
  const rate = 1 / log.step;
  const rates = LOG_AXES.map((axis) => log.rate[axis]).filter((column) => column !== null);
  const spectrum = onePower(length, rate);
  const windows: PowerWindow[] = [];
  for (const { from, to } of log.stretches)
    for (let first = from; first + length <= to; first += length / 2) {
      const cut = (column: Float64Array) => column.subarray(first, first + length);
      const parts = rates.map(cut);
      if (parts.some((part) => part.some(Number.isNaN))) continue;
      windows.push({ from: numberAt(log.time, first), power: parts.map(spectrum), ...meanwhile(log, cut) });
    }
  return { rate, spacing: rate / length, windows };
}

function meanwhile(log: FlightLog, cut: (column: Float64Array) => Float64Array) {
  const meanOf = (column: Float64Array | null) => (column === null ? null : mean(cut(column)));
  const duties = log.duty.filter((column) => column !== null).map(cut);
  const together = duties[0]?.map((_, k) => mean(duties.map((duty) => numberAt(duty, k)))) ?? new Float64Array(1);
  const middle = mean(together);
  return {
    duty: log.duty.map(meanOf),
    speed: log.rotorSpeed.map(meanOf),
    voltage: meanOf(log.voltage),
    unrest: Math.sqrt(mean(together.map((value) => (value - middle) ** 2))),
  };
}

function onePower(length: number, rate: number): (samples: Float64Array) => Float64Array {
  const { forward } = transformOf(length);
  const taper = Float64Array.from({ length }, (_, n) => (1 - cos((2 * Math.PI * n) / length)) / 2);
  const scale = 2 / (rate * taper.reduce((sum, weight) => sum + weight * weight, 0));
  return (samples) => {
    const { re, im } = forward(withoutTrend(samples).map((value, n) => value * numberAt(taper, n)));
    return re.map((real, k) => scale * (real * real + numberAt(im, k) * numberAt(im, k)));
  };
}

/** Of these windows and axes alike, bin by bin. */
export function meanPower(windows: readonly PowerWindow[], axis: number): Float64Array {
  const sum = new Float64Array(at(at(windows, 0).power, axis).length);
  for (const { power } of windows)
    for (const [k, value] of at(power, axis).entries()) sum[k] = numberAt(sum, k) + value;
  return sum.map((value) => value / windows.length);
}
