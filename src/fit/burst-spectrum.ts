// What turns a craft though no command did, in the frequencies of its wake's bursts; and what bursts of a known size would leave
// there.
import type { Craft } from "../airframe/craft.js";
import { invertInertia } from "../airframe/inertia.js";
import { trimAt } from "../airframe/trim.js";
import { at, numberAt } from "../base/at.js";
import { cos } from "../base/elementary.js";
import { openPlant } from "../theory/plant.js";
import { transformOf } from "./transform.js";
import { mean, withoutTrend } from "./windows.js";

/** Hz: slower bursts last longer than a window, faster ones drown in noise. */
const [SLOWEST, FASTEST] = [4, 25];

export interface BandBins {
  readonly indices: readonly number[];
  /** rad/s */
  readonly frequencies: Float64Array;
}

export function bandBins(length: number, step: number): BandBins {
  const spacing = 1 / (length * step);
  const [first, last] = [Math.ceil(SLOWEST / spacing), Math.floor(FASTEST / spacing)];
  const indices = Array.from({ length: last - first + 1 }, (_, k) => first + k);
  return { indices, frequencies: Float64Array.from(indices, (k) => 2 * Math.PI * k * spacing) };
}

/** Of tapered samples. */
export interface HalfSpectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** One-sided power, per Hz, of a squared magnitude. */
  readonly scale: number;
}

export function taperedSpectrum(length: number, step: number): (samples: Float64Array) => HalfSpectrum {
  const { forward } = transformOf(length);
  const taper = Float64Array.from({ length }, (_, n) => (1 - cos((2 * Math.PI * n) / length)) / 2);
  const scale = (2 * step) / taper.reduce((sum, weight) => sum + weight * weight, 0);
  return (samples) => ({ ...forward(withoutTrend(samples).map((value, n) => value * numberAt(taper, n))), scale });
}

/** Angular acceleration that the command does not explain, |jw (Y - G U)|^2 of each bin, (rad/s^2)^2/Hz, one-sided. */
export function turnedBy(
  craft: Craft,
  axis: "roll" | "pitch",
  duty: number,
  { indices, frequencies }: BandBins,
  rate: HalfSpectrum,
  command: HalfSpectrum,
): number[] {
  const own = axis === "roll" ? 0 : 1;
  const plant = at(at(openPlant(craft, trimAt(craft, duty))(frequencies), own), own);
  return indices.map((bin, k) => {
    const [gRe, gIm] = [numberAt(plant.re, k), numberAt(plant.im, k)];
    const [uRe, uIm] = [numberAt(command.re, bin), numberAt(command.im, bin)];
    const re = numberAt(rate.re, bin) - (gRe * uRe - gIm * uIm);
    const im = numberAt(rate.im, bin) - (gRe * uIm + gIm * uRe);
    const w = numberAt(frequencies, k);
    return rate.scale * w * w * (re * re + im * im);
  });
}

/**
 * The same that independent bursts of rms 1 would leave: each rotor's torque by its thrust, and the spectrum of two equal poles,
 * S(f) = (8/a) / (1 + (w/a)^2)^2 with a = rotor speed / revolutions, whose integral over f is 1.
 */
export function unitBursts(craft: Craft, axis: "roll" | "pitch", duty: number, { frequencies }: BandBins): number[] {
  const { speeds } = trimAt(craft, duty);
  const { wash } = craft.airframe;
  const mobility = invertInertia(craft.inertia)[axis === "roll" ? "xx" : "yy"];
  const square = craft.arms.reduce((sum, [x, y], rotor) => {
    const speed = at(speeds, rotor);
    const torque = (axis === "roll" ? y : x) * craft.thrustStatic * speed * speed;
    return sum + torque * torque;
  }, 0);
  const pole = mean(speeds) / wash.revolutions;
  const size = (1 - wash.correlation) * square * mobility * mobility;
  return Array.from(frequencies, (w) => (size * 8) / pole / (1 + (w / pole) ** 2) ** 2);
}
