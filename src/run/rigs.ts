// Rigs of a plan, made when first asked for and kept as long as there is room: making one costs as much as some trials.
import { type Rig, rigOf } from "../kernel/rig.js";
import type { Plan } from "../plan/plan.js";
import type { Question } from "../response/answer.js";
import { questionOf } from "./question.js";

export interface Rigged {
  readonly rig: Rig;
  readonly question: Question;
}

/** Bytes of drives a worker keeps: some two hundred variants of two seconds. */
const ROOM = 128 * 2 ** 20;

/** Gives the rig of a variant by its index; those asked for longest ago go first. Throws RangeError where there is none. */
export function rigShelf(plan: Plan, room = ROOM): (variant: number) => Rigged {
  const kept = new Map<number, Rigged>();
  let held = 0;
  const bytes = ({ rig }: Rigged): number => rig.drive.values.byteLength;
  return (index) => {
    const found = kept.get(index) ?? made(plan, index);
    if (!kept.delete(index)) held += bytes(found);
    kept.set(index, found); // a map remembers in which order
    for (const [oldest, rigged] of kept) {
      if (held <= room || oldest === index) break;
      kept.delete(oldest);
      held -= bytes(rigged);
    }
    return found;
  };
}

function made(plan: Plan, index: number): Rigged {
  const variant = plan.variants[index];
  if (variant === undefined) throw new RangeError(`no variant ${index}`);
  const rig = rigOf(plan, variant);
  return { rig, question: questionOf(variant, rig) };
}
