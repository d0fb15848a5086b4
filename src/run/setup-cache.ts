// Rigs of a plan, made when first asked for and kept as long as there is room: making one costs as much as some trials.
import { type Rig, rigOf } from "../kernel/rig.js";
import type { Plan } from "../plan/plan.js";
import type { Question } from "../response/answer.js";
import { questionOf } from "./question.js";

export interface TrialSetup {
  readonly rig: Rig;
  readonly question: Question;
}

/** Bytes of drives a worker keeps: some two hundred variants of two seconds. */
const CACHE_BYTES = 128 * 2 ** 20;

/**
 * Gives the rig of a variant by its index, under the plan's seed or another; those asked for longest ago go first. Throws
 * RangeError where there is none.
 */
export function setupCache(plan: Plan, room = CACHE_BYTES): (variant: number, seed?: number) => TrialSetup {
  const kept = new Map<string, TrialSetup>();
  let cachedBytes = 0;
  const bytes = ({ rig }: TrialSetup): number => rig.drive.values.byteLength;
  return (index, seed = plan.sweep.seed) => {
    const key = `${index} ${seed}`;
    const found = kept.get(key) ?? setupOf(plan, index, seed);
    if (!kept.delete(key)) cachedBytes += bytes(found);
    kept.set(key, found); // a map remembers in which order
    for (const [oldest, rigged] of kept) {
      if (cachedBytes <= room || oldest === key) break;
      kept.delete(oldest);
      cachedBytes -= bytes(rigged);
    }
    return found;
  };
}

function setupOf(plan: Plan, index: number, seed: number): TrialSetup {
  const variant = plan.variants[index];
  if (variant === undefined) throw new RangeError(`no variant ${index}`);
  const rig = rigOf(seed === plan.sweep.seed ? plan : { ...plan, sweep: { ...plan.sweep, seed } }, variant);
  return { rig, question: questionOf(variant, rig) };
}
