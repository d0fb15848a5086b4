// Rigs of a plan, made when first needed and cached as long as there is room: making one costs as much as some trials.
import { meetSameNoise } from "../kernel/drive.js";
import { type Rig, rigOf } from "../kernel/rig.js";
import type { Bursts } from "../kernel/wash.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import type { Question } from "../response/answer.js";
import { questionOf } from "./question.js";

export interface TrialSetup {
  readonly rig: Rig;
  readonly question: Question;
}

export interface SetupOptions {
  /** Bytes of drives. */
  readonly room?: number;
  /** The bursts of a variant's wash by its index, where they are not the plan's own. */
  readonly burstsOf?: (variant: number, seed: number) => Bursts | null;
}

/** Bytes of drives a worker caches: some two hundred variants of two seconds. */
const CACHE_BYTES = 128 * 2 ** 20;

/**
 * Gives the rig of a variant by its index, under the plan's seed or another; the least recently used are dropped first. Throws
 * RangeError where there is none.
 */
export function setupCache(
  plan: TrialPlan,
  { room = CACHE_BYTES, burstsOf }: SetupOptions = {},
): (variant: number, seed?: number) => TrialSetup {
  const cached = new Map<string, CachedSetup>();
  let cachedBytes = 0;
  const make = (index: number, seed: number): CachedSetup => {
    const variant = plan.variants[index];
    if (variant === undefined) throw new RangeError(`no variant ${index}`);
    const alike = [...cached.values()].find((entry) => entry.seed === seed && meetSameNoise(entry.variant, variant));
    const seeded = seed === plan.sweep.seed ? plan : { ...plan, sweep: { ...plan.sweep, seed } };
    const rig = rigOf(seeded, variant, { like: alike?.setup.rig.drive, bursts: burstsOf?.(index, seed) });
    return { variant, seed, setup: { rig, question: questionOf(variant, rig) } };
  };
  return (index, seed = plan.sweep.seed) => {
    const key = `${index} ${seed}`;
    const found = cached.get(key) ?? make(index, seed);
    if (!cached.delete(key)) cachedBytes += bytesOf(found);
    cached.set(key, found); // a map remembers in which order
    for (const [oldest, entry] of cached) {
      if (cachedBytes <= room || oldest === key) break;
      cached.delete(oldest);
      cachedBytes -= bytesOf(entry);
    }
    return found.setup;
  };
}

interface CachedSetup {
  readonly variant: TrialVariant;
  readonly seed: number;
  readonly setup: TrialSetup;
}

const bytesOf = ({ setup }: CachedSetup): number => setup.rig.drive.values.byteLength;
