// Where the worst throttle and pack give out, by kinds of scripts.
import { KIND_IDS, LADDER_KINDS, SCRIPT_KINDS } from "../base/script-kinds.js";
import { type WorstInterval, worstInterval } from "./boundary.js";
import type { AxisMap, ConditionBoundary } from "./format.js";

/** Kinds of scripts that drive the motors to their limits. */
export const MANOEUVRES: readonly string[] = LADDER_KINDS;

/** Kinds that show the loop itself. */
export const SMALL_SIGNAL: readonly string[] = KIND_IDS.filter((kind) => SCRIPT_KINDS[kind].smallSignal);

/** Upper end of the worst stable range at each D that has one inside the swept range, and the variant that sets it. */
export interface WorstEnd {
  readonly d: number;
  readonly p: number;
  readonly by: ConditionBoundary;
}

/** The ends by the scripts of some kinds, at each D that has one. */
export function worstEnds(axis: AxisMap, kinds: readonly string[]): WorstEnd[] {
  const chosen = axis.boundary.byVariant.filter(({ kind, atRest }) => kinds.includes(kind) && atRest !== true);
  const variants = chosen.map(({ perD }, variant) => ({ variant, perD: perD.map(({ stable }) => stable) }));
  return (chosen[0]?.perD ?? []).flatMap(({ d }, row): WorstEnd[] => {
    const found = worstInterval(variants, row);
    const by = chosen[(found as WorstInterval).toBy];
    return "never" in found || found.toOpen || by === undefined ? [] : [{ d, p: found.to, by }];
  });
}
