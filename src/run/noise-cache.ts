// Noise of a plan's variants, drawn when first needed: shared between threads where it is, else cached as long as there is room.
import { at } from "../base/at.js";
import { noiseInto, noiseKey, noiseLength } from "../kernel/noise.js";
import type { Bursts } from "../kernel/wash.js";
import type { TrialPlan } from "../plan/plan.js";
import { recentlyUsed } from "./recently-used.js";
import type { SharedNoise } from "./shared-noise.js";

export interface NoiseOptions {
  /** Bytes. */
  readonly room?: number;
  /** The bursts of a variant's wash by its index, where they are not the plan's own. */
  readonly burstsOf?: ((variant: number, seed: number) => Bursts | null) | undefined;
  /** Noise under the plan's own seed. */
  readonly shared?: SharedNoise | undefined;
}

/** Some fifty variants of two seconds: those of all levels and packs under a few scripts. */
const ROOM = 32 * 2 ** 20;

/** Gives the noise of a variant by its index, under the plan's seed or another. */
export function noiseCache(
  plan: TrialPlan,
  { room = ROOM, burstsOf, shared }: NoiseOptions = {},
): (index: number, seed: number) => Float64Array {
  const cached = recentlyUsed<Float64Array>(room, ({ byteLength }) => byteLength);
  const cachedNoise = (index: number, seed: number): Float64Array => {
    const variant = at(plan.variants, index);
    return cached(`${noiseKey(variant)} ${seed}`, () => {
      const seeded = seed === plan.sweep.seed ? plan : { ...plan, sweep: { ...plan.sweep, seed } };
      return noiseInto(new Float64Array(noiseLength(plan, variant)), seeded, variant, burstsOf?.(index, seed));
    });
  };
  return (index, seed) => (seed === plan.sweep.seed ? shared?.(index) : null) ?? cachedNoise(index, seed);
}
