// A part of a log that the fit did not see, predicted from its measured commands alone.
import type { Mixer } from "../airframe/mixer.js";
import { at, numberAt } from "../base/at.js";
import { cos, sin } from "../base/elementary.js";
import { type Complex, empty } from "../base/fourier.js";
import { allDuties, commandShares, mixed } from "../flight/axis-commands.js";
import type { FlightLog, LogAxis } from "../flight/log.js";
import { type ComplexArray, sampled } from "../theory/frequency.js";
import { evenPieces, type TimeRange } from "./even-grid.js";
import type { FittedShape } from "./format.js";
import { SHAPE_BAND } from "./shape.js";
import { transformOf } from "./transform.js";
import { withoutTrend } from "./windows.js";

/** Rate (rad/s) per unit of axis command at each frequency (rad/s). */
export type RateResponse = (frequencies: Float64Array) => ComplexArray;

export interface Prediction {
  /** Seconds of the log. */
  readonly time: Float64Array;
  /** rad/s, both within the band. */
  readonly measured: Float64Array;
  readonly predicted: Float64Array;
  /** 1 less the variance of their difference over that of the measured rate; 1 is all, below 0 worse than nothing. */
  readonly explained: number;
}

/** Seconds dropped at each end: there the part before is missing, and the taper acts. */
const ENDS = 0.5;
/** rad/s over which the band's lower and upper edge rise and fall. */
const [RISE, FALL] = [0.5 * 2 * Math.PI, 10 * 2 * Math.PI];

/**
 * Axis command and rate of the longest piece within `range`, both cut to the shape's band, 1.5 to 30 Hz, by the same edges
 * without phase: the rate sums up every offset of trim and motors, so that below it any prediction drifts away. Null where
 * the log lacks a column or the piece is shorter than 4 s.
 */
export function predicted(
  log: FlightLog,
  mixer: Mixer,
  axis: LogAxis,
  range: TimeRange,
  response: RateResponse,
): Prediction | null {
  const duties = allDuties(log);
  const rate = log.rate[axis];
  if (duties === null || rate === null) return null;
  const pieces = evenPieces(log, [...duties, rate], { within: range });
  const piece = [...pieces].sort((a, b) => b.length - a.length || a.from - b.from)[0];
  if (piece === undefined || piece.length * piece.step < 4) return null;
  const command = mixed(piece.channels.slice(0, -1), commandShares(mixer, axis));
  const [out, own] = banded(command, at(piece.channels, duties.length), piece.step, response);
  const dropped = Math.round(ENDS / piece.step);
  const part = (samples: Float64Array) => samples.slice(dropped, samples.length - dropped);
  const [measured, guess] = [part(own), part(out)];
  const left = measured.map((value, n) => value - numberAt(guess, n));
  return {
    time: measured.map((_, n) => piece.from + (n + dropped) * piece.step),
    measured,
    predicted: guess,
    explained: 1 - power(left) / power(measured),
  };
}

const power = (samples: Float64Array): number => samples.reduce((sum, value) => sum + value * value, 0);

/** Predicted and measured rate within the band. */
function banded(
  command: Float64Array,
  rate: Float64Array,
  step: number,
  response: RateResponse,
): readonly [Float64Array, Float64Array] {
  let length = 4;
  while (length < 2 * command.length) length *= 2; // room for the response to ring out without coming round
  const { forward, backward } = transformOf(length);
  const spacing = (2 * Math.PI) / (length * step);
  const frequencies = Float64Array.from({ length: length / 2 + 1 }, (_, k) => k * spacing);
  const inBand = frequencies.filter((w) => pass(w) > 0);
  const first = frequencies.indexOf(numberAt(inBand, 0));
  const values = response(inBand);
  const spectrum = (samples: Float64Array): Complex => {
    const padded = new Float64Array(length);
    padded.set(tapered(withoutTrend(samples), step));
    return forward(padded);
  };
  const through = (half: Complex, by: (n: number) => readonly [number, number]): Float64Array => {
    const kept = empty(half.re.length);
    inBand.forEach((w, n) => {
      const [a, b] = by(n);
      const [re, im] = [numberAt(half.re, first + n) * pass(w), numberAt(half.im, first + n) * pass(w)];
      kept.re[first + n] = re * a - im * b;
      kept.im[first + n] = re * b + im * a;
    });
    return backward(kept).slice(0, command.length);
  };
  return [
    through(spectrum(command), (n) => [numberAt(values.re, n), numberAt(values.im, n)]),
    through(spectrum(rate), () => [1, 0]),
  ];
}

/** From 0 below the band to 1 in it and back, by half cosines. */
function pass(w: number): number {
  const edge = (share: number): number => (share <= 0 ? 0 : share >= 1 ? 1 : (1 - cos(Math.PI * share)) / 2);
  return edge((w - SHAPE_BAND.lowest + RISE) / RISE) * edge((SHAPE_BAND.highest + FALL - w) / FALL);
}

/** Ends that rise and fall over half of what is dropped. */
function tapered(samples: Float64Array, step: number): Float64Array {
  const reach = Math.round(ENDS / 2 / step);
  return samples.map((value, n) => {
    const share = Math.min(1, n / reach, (samples.length - 1 - n) / reach);
    return (value * (1 - cos(Math.PI * share))) / 2;
  });
}

/** The response of a shape, with the step of half a sample that a held command is late taken as part of its delay. */
export function shapeResponse({ authority, lag, delay }: FittedShape): RateResponse {
  return (frequencies) =>
    sampled(frequencies, (w) => {
      const turn = w * lag.middle;
      const size = authority.middle / (w * (1 + turn * turn));
      const [c, s] = [cos(w * delay.middle), -sin(w * delay.middle)];
      return [size * (-turn * c + s), size * (-turn * s - c)];
    });
}
