// Handling-qualities terms of an attitude response: bandwidth and phase delay after ADS-33E-PRF, 3.3.2.1.

import type { AxisGains } from "../airframe/airframe.js";
import { atan2, ln } from "../base/elementary.js";
import type { CommandPath } from "./controller.js";
import { between, rootBetween } from "./crossing.js";
import { type ComplexArray, complexArray, product, quotient, sampled, weighted } from "./frequency.js";
import { type LoopPieces, openLoop } from "./pieces.js";

export interface AttitudeBandwidth {
  /** rad/s at which the phase passes -180 degrees. */
  readonly reversal: number;
  /** rad/s at which 45 degrees are left to it. */
  readonly byPhase: number;
  /** rad/s at which the gain falls to 6 dB above that at the reversal; null where it is never so high. */
  readonly byGain: number | null;
  /** The lesser of the two, as for a commanded rate; 0 where no frequency has 6 dB of room. */
  readonly bandwidth: number;
  /** s, from the phase at twice the reversal; null where the grid ends before it. */
  readonly phaseDelay: number | null;
  /** s, from the least-squares line between the reversal and its double: for a phase that is not straight there. */
  readonly fittedDelay: number | null;
}

/**
 * Attitude per commanded rate, s: the closed rate loop integrated. P and I act on the error, D on the rate alone; `path` is
 * what commands pass before, and what is fed forward.
 */
export function attitudeResponse(pieces: LoopPieces, gains: AxisGains, path: CommandPath | null = null): ComplexArray {
  const one = complexArray(pieces.frequencies.length);
  one.re.fill(1);
  const onError = weighted([pieces.scale * gains.p, one], [pieces.scale * gains.i, pieces.sum]);
  const whole = path === null ? onError : product(path.lowPass, weighted([1, onError], [1, path.feedForward]));
  const forward = product(pieces.plant, whole);
  const rate = quotient(forward, weighted([1, one], [1, openLoop(pieces, gains)]));
  return product(
    rate,
    sampled(pieces.frequencies, (w) => [0, -1 / w]),
  );
}

/** Reads the terms off an attitude response; null where its phase never reaches -180 degrees on the grid. */
export function attitudeBandwidth(frequencies: Float64Array, response: ComplexArray): AttitudeBandwidth | null {
  const phase = unwrapped(response);
  const level = response.re.map((re, k) => 10 * Math.LOG10E * ln(re * re + response.im[k] ** 2));
  const reversal = firstFall(frequencies, phase, -180);
  const byPhase = firstFall(frequencies, phase, -135);
  if (reversal === null || byPhase === null) return null;
  const gain = firstFall(frequencies, level, valueAt(frequencies, level, reversal) + 6);
  const byGain = gain !== null && gain < reversal ? gain : null;
  const reached = 2 * reversal <= frequencies[frequencies.length - 1];
  return {
    reversal,
    byPhase,
    byGain,
    bandwidth: Math.min(byPhase, byGain ?? 0),
    phaseDelay: reached ? (-valueAt(frequencies, phase, 2 * reversal) - 180) / DEGREES / (2 * reversal) : null,
    fittedDelay: reached ? -lineSlope(frequencies, phase, reversal, 2 * reversal) / DEGREES / 2 : null,
  };
}

const DEGREES = 180 / Math.PI;

/** Phase in degrees without jumps: neighbours on the grid differ by less than half a turn. */
function unwrapped({ re, im }: ComplexArray): Float64Array {
  const phase = new Float64Array(re.length);
  for (let k = 0; k < re.length; k++) {
    const here = DEGREES * atan2(im[k], re[k]);
    const before = phase[k - 1] ?? here;
    phase[k] = here - 360 * Math.round((here - before) / 360);
  }
  return phase;
}

/** The lowest frequency at which the values fall through a level. */
function firstFall(frequencies: Float64Array, values: Float64Array, level: number): number | null {
  for (let k = 0; k + 1 < values.length; k++) {
    if (values[k] < level || values[k + 1] >= level) continue;
    const local = between(frequencies, values, k);
    const share = rootBetween((s) => local(s) - level);
    return frequencies[k] + share * (frequencies[k + 1] - frequencies[k]);
  }
  return null;
}

function valueAt(frequencies: Float64Array, values: Float64Array, frequency: number): number {
  const after = frequencies.findIndex((w) => w > frequency);
  const k = after === -1 ? frequencies.length - 2 : Math.max(0, after - 1);
  return between(frequencies, values, k)((frequency - frequencies[k]) / (frequencies[k + 1] - frequencies[k]));
}

const SAMPLES = 41; // evenly over the fitted range

/** Slope of the least-squares line, per rad/s. */
function lineSlope(frequencies: Float64Array, values: Float64Array, from: number, to: number): number {
  let [moment, squares] = [0, 0];
  for (let n = 0; n < SAMPLES; n++) {
    const offset = (to - from) * (n / (SAMPLES - 1) - 0.5);
    moment += offset * valueAt(frequencies, values, 0.5 * (from + to) + offset);
    squares += offset * offset;
  }
  return moment / squares;
}
