// Rigs of a plan, made when first needed and cached as long as there is room: making one costs as much as some trials.
import { type Rig, rigOf } from "../kernel/rig.js";
import type { TrialPlan } from "../plan/plan.js";
import type { Question } from "../response/answer.js";
import { type NoiseOptions, noiseCache } from "./noise-cache.js";
import { questionOf } from "./question.js";
import { recentlyUsed } from "./recently-used.js";

export interface TrialSetup {
  readonly rig: Rig;
  readonly question: Question;
}

export interface SetupOptions extends Omit<NoiseOptions, "room"> {
  /** Bytes of drives. */
  readonly room?: number;
}

/** Bytes of drives a worker caches: those of some ten variants of two seconds; more of them save no time (first-tune, 2026-11-29). Their noise, most of the work, is cached apart. */
const CACHE_BYTES = 16 * 2 ** 20;

/** Gives the rig of a variant by its index, under the plan's seed or another. Throws RangeError where there is none. */
export function setupCache(
  plan: TrialPlan,
  { room = CACHE_BYTES, ...noiseOptions }: SetupOptions = {},
): (variant: number, seed?: number) => TrialSetup {
  const noise = noiseCache(plan, noiseOptions);
  const cached = recentlyUsed<TrialSetup>(room, ({ rig }) => rig.drive.values.byteLength);
  return (index, seed = plan.sweep.seed) =>
    cached(`${index} ${seed}`, () => {
      const variant = plan.variants[index];
      if (variant === undefined) throw new RangeError(`no variant ${index}`);
      const seeded = seed === plan.sweep.seed ? plan : { ...plan, sweep: { ...plan.sweep, seed } };
      const rig = rigOf(seeded, variant, noise(index, seed));
      return { rig, question: questionOf(variant, rig) };
    });
}
