// Rigs of a plan, made when first needed and cached as long as there is room: making one costs as much as some trials.
import { driveOf } from "../kernel/drive.js";
import { type Rig, rigOf } from "../kernel/rig.js";
import type { TrialPlan } from "../plan/plan.js";
import type { Question } from "../response/answer.js";
import { type NoiseOptions, noiseCache } from "./noise-cache.js";
import type { SharedSetups } from "./plan-memory.js";
import { questionOf } from "./question.js";
import { recentlyUsed } from "./recently-used.js";

export interface TrialSetup {
  readonly rig: Rig;
  readonly question: Question;
}

interface CachedSetup extends TrialSetup {
  /** Of a drive that no other thread shares. */
  readonly ownBytes: number;
}

export interface SetupOptions extends Omit<NoiseOptions, "room" | "shared"> {
  /** Bytes of drives. */
  readonly room?: number;
  /** Noise and drives under the plan's own seed. */
  readonly shared?: SharedSetups | undefined;
}

/** Bytes of drives a worker caches of its own, those of some ten variants of two seconds; what threads share counts in none of them. */
const CACHE_BYTES = 16 * 2 ** 20;

/** Gives the rig of a variant by its index, under the plan's seed or another. Throws RangeError where there is none. */
export function setupCache(
  plan: TrialPlan,
  { room = CACHE_BYTES, shared, burstsOf }: SetupOptions = {},
): (variant: number, seed?: number) => TrialSetup {
  const noise = noiseCache(plan, { burstsOf, shared: shared?.noise });
  const cached = recentlyUsed<CachedSetup>(room, ({ ownBytes }) => ownBytes);
  return (index, seed = plan.sweep.seed) =>
    cached(`${index} ${seed}`, () => {
      const variant = plan.variants[index];
      if (variant === undefined) throw new RangeError(`no variant ${index}`);
      const own = seed === plan.sweep.seed;
      const seeded = own ? plan : { ...plan, sweep: { ...plan.sweep, seed } };
      const there = own ? (shared?.drives(index, (one) => noise(one, seed)) ?? null) : null;
      const rig = rigOf(seeded, variant, (shape) => there ?? driveOf(seeded, variant, shape, noise(index, seed)));
      const ownBytes = there === null ? rig.drive.values.byteLength : 0;
      return { rig, question: questionOf(variant, rig), ownBytes };
    });
}
