// Noise of a plan's variants in memory that all its threads share.
import { noiseInto, noiseKey, noiseLength } from "../kernel/noise.js";
import type { TrialPlan } from "../plan/plan.js";
import { type Lengths, memoryForValues, PATIENCE, sharedValues } from "./shared-values.js";

/** Bytes at most; noise that finds no room any more is drawn by every thread for itself. */
const ROOM = 64 * 2 ** 20;

/** Noise of a variant by its index, under the plan's own seed; null where there is no room for it. */
export type SharedNoise = (variant: number) => Float64Array | null;

interface SharingOptions {
  readonly room?: number;
  readonly patience?: number; // ms
}

/** One noise for the variants that meet the same. */
const lengthsOf = (plan: TrialPlan): Lengths =>
  new Map(plan.variants.map((variant) => [noiseKey(variant), noiseLength(plan, variant)]));

/** Memory for the noise of this plan. */
export const memoryForNoise = (plan: TrialPlan, room = ROOM): SharedArrayBuffer =>
  memoryForValues(lengthsOf(plan), room);

/** The noise in the memory made for this plan, here or, for a copy of it, in another thread; with the same room. */
export function sharedNoise(
  plan: TrialPlan,
  memory: SharedArrayBuffer,
  { room = ROOM, patience = PATIENCE }: SharingOptions = {},
): SharedNoise {
  const noise = sharedValues(lengthsOf(plan), memory, room, patience);
  return (index) => {
    const variant = plan.variants[index];
    if (variant === undefined) return null;
    return noise(noiseKey(variant), (values) => noiseInto(values, plan, variant));
  };
}
