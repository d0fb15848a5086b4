// Filter stages as the controller runs them: bilinear transform, frequencies pre-warped.
import { numberAt } from "../base/at.js";
import { cos, sin } from "../base/elementary.js";
import type { Airframe, FilterStage, LowPass, Notch } from "./airframe.js";

/** The fixed stages that the measured rate passes on its way to P, one after another; those that move come behind (moving-filter.ts). */
export const gyroChain = ({ sensing }: Airframe): readonly FilterStage[] => [
  ...sensing.lowPass,
  ...(sensing.notch ?? []),
];

/** The fixed stages that the filtered rate's slope passes on its way to D, after the gyro's own chain. */
export const slopeChain = ({ controller }: Airframe): readonly FilterStage[] => [
  ...controller.derivativeFilter,
  ...(controller.derivativeNotch ?? []),
];

/** Coefficients at a sampling rate, for y = b0 x + b1 x1 + b2 x2 - a1 y1 - a2 y2. */
export type Stage = readonly [b0: number, b1: number, b2: number, a1: number, a2: number];

export const isNotch = (stage: FilterStage): stage is Notch => "centre" in stage;

/** The stages of a chain at the controller's own rate. */
export const stagesOf = (
  chain: readonly FilterStage[],
  { controller }: Pick<Airframe, "controller">,
): readonly Stage[] =>
  chain.map((stage) => (isNotch(stage) ? notchStage : lowPassStage)(stage as LowPass & Notch, controller.rate));

/** Group delay at rest, s: what the stage costs a loop much slower than it. */
export const stageDelay = (stage: FilterStage, rate: number): number =>
  isNotch(stage) ? notchDelay(stage, rate) : lowPassDelay(stage, rate);

/** Group delay of a chain at rest, s. */
export const chainDelay = (chain: readonly FilterStage[], { controller }: Airframe): number =>
  chain.reduce((sum, stage) => sum + stageDelay(stage, controller.rate), 0);

/** A column through stages, from rest at its first value. */
export function filtered(values: Float64Array, stages: readonly Stage[]): Float64Array {
  let out = values;
  for (const [b0, b1, b2, a1, a2] of stages) {
    const next = new Float64Array(out.length);
    const first = out.length === 0 ? 0 : numberAt(out, 0);
    // the two memories of the transposed form at rest, where the stage's gain is 1
    let z1 = (1 - b0) * first;
    let z2 = (b2 - a2) * first;
    for (let k = 0; k < out.length; k++) {
      const x = numberAt(out, k);
      const y = b0 * x + z1;
      z1 = b1 * x - a1 * y + z2;
      z2 = b2 * x - a2 * y;
      next[k] = y;
    }
    out = next;
  }
  return out;
}

/** tan(pi frequency/rate): the pre-warped frequency. RangeError unless it lies between 0 and rate/2. */
export function warped(name: string, frequency: number, rate: number): number {
  if (!(frequency > 0 && frequency < rate / 2)) {
    throw new RangeError(`${name} ${frequency} Hz is not between 0 and half the rate of ${rate} Hz`);
  }
  const angle = (Math.PI * frequency) / rate;
  return sin(angle) / cos(angle);
}

/** Coefficients of a low-pass: gain 1 at rest, 1/sqrt(2) at the cutoff. Order 2 is Butterworth. */
export function lowPassStage(filter: LowPass, rate: number): Stage {
  const k = warped("cutoff", filter.cutoff, rate);
  if (filter.order === 1) return [k / (1 + k), k / (1 + k), 0, (k - 1) / (k + 1), 0];
  const damping = Math.SQRT2 * k;
  const scale = 1 / (1 + damping + k * k);
  const b = k * k * scale;
  return [b, 2 * b, b, 2 * (k * k - 1) * scale, (1 - damping + k * k) * scale];
}

/** Group delay at rest, s. */
export function lowPassDelay(filter: LowPass, rate: number): number {
  const samples = (filter.order === 1 ? 1 : Math.SQRT2) / (2 * warped("cutoff", filter.cutoff, rate));
  return samples / rate;
}

/**
 * Coefficients of a notch: gain 1 at rest and at half the rate, 0 at the centre, 1/sqrt(2) at two frequencies exactly the width
 * apart (S.J. Orfanidis, Introduction to Signal Processing, 11.3; from memory).
 */
export function notchStage({ centre, width }: Notch, rate: number): Stage {
  const damping = warped("width", width, rate);
  const turn = notchTurn(centre, rate);
  const scale = 1 / (1 + damping);
  return [scale, -2 * turn * scale, scale, -2 * turn * scale, (1 - damping) * scale];
}

/** Group delay at rest, s. */
export const notchDelay = ({ centre, width }: Notch, rate: number): number =>
  warped("width", width, rate) / (1 - notchTurn(centre, rate)) / rate;

/** cos(2 pi centre/rate), from the half angle, which keeps its digits where the centre is low. */
function notchTurn(centre: number, rate: number): number {
  const half = warped("centre", centre, rate);
  return (1 - half * half) / (1 + half * half);
}
