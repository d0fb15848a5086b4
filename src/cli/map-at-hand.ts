// A map that is there already, used instead of flying, and said so.
import { plain } from "../base/problem.js";
import { keptMap } from "../flow/run-map.js";
import type { StabilityMap } from "../map/format.js";
import type { Plan } from "../plan/plan.js";

export interface AtHandOptions {
  readonly fresh?: boolean;
  readonly quiet?: boolean;
  readonly unsealed?: boolean;
}

/** The map in the folder where it answers the plan and none was asked to be flown afresh; else null. */
export function mapAtHand(
  plan: Plan,
  folder: string,
  { fresh, quiet, unsealed = false }: AtHandOptions,
): StabilityMap | null {
  const map = fresh ? null : keptMap(plan, folder, { unsealed });
  if (map !== null && !quiet) process.stderr.write(`${plain(`using the map in ${folder}; --fresh flies it again`)}\n`);
  return map;
}
