// Low-pass stages as the controller runs them: bilinear transform, corner pre-warped.
import { cos, sin } from "../base/elementary.js";
import type { Airframe, LowPass } from "./airframe.js";

/** What the measured rate passes on its way to P, stage after stage: kernel, theory and holding gains all build on it. */
export const gyroChain = ({ sensing }: Airframe): readonly LowPass[] => sensing.lowPass;

/** What the filtered rate's slope passes on its way to D, after the gyro's own chain. */
export const slopeChain = ({ controller }: Airframe): readonly LowPass[] => controller.derivativeFilter;

/** Coefficients of one stage at a sampling rate, as `lowPassStage` gives them. */
export type Stage = ReturnType<typeof lowPassStage>;

/** The stages of a chain at the controller's own rate. */
export const stagesOf = (chain: readonly LowPass[], { controller }: Airframe): readonly Stage[] =>
  chain.map((stage) => lowPassStage(stage, controller.rate));

/** Group delay of a chain at rest, s. */
export const chainDelay = (chain: readonly LowPass[], { controller }: Airframe): number =>
  chain.reduce((sum, stage) => sum + lowPassDelay(stage, controller.rate), 0);

/** tan(pi cutoff/rate): the pre-warped corner. RangeError unless the cutoff lies between 0 and rate/2. */
function warpedCorner(filter: LowPass, rate: number): number {
  if (!(filter.cutoff > 0 && filter.cutoff < rate / 2)) {
    throw new RangeError(`cutoff ${filter.cutoff} Hz is not between 0 and half the rate of ${rate} Hz`);
  }
  const angle = (Math.PI * filter.cutoff) / rate;
  return sin(angle) / cos(angle);
}

/**
 * Coefficients at a sampling rate in Hz, for y = b0 x + b1 x1 + b2 x2 - a1 y1 - a2 y2: gain 1 at rest,
 * 1/sqrt(2) at the cutoff. Order 2 is Butterworth.
 */
export function lowPassStage(
  filter: LowPass,
  rate: number,
): readonly [b0: number, b1: number, b2: number, a1: number, a2: number] {
  const k = warpedCorner(filter, rate);
  if (filter.order === 1) return [k / (1 + k), k / (1 + k), 0, (k - 1) / (k + 1), 0];
  const damping = Math.SQRT2 * k;
  const scale = 1 / (1 + damping + k * k);
  const b = k * k * scale;
  return [b, 2 * b, b, 2 * (k * k - 1) * scale, (1 - damping + k * k) * scale];
}

/** Group delay at rest, s: what the stage costs a loop much slower than its cutoff. */
export function lowPassDelay(filter: LowPass, rate: number): number {
  const samples = (filter.order === 1 ? 1 : Math.SQRT2) / (2 * warpedCorner(filter, rate));
  return samples / rate;
}
