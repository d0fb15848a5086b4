// A map that is there already is used instead of simulating; a line says so.
import { printable } from "../base/problem.js";
import { reusableMap } from "../flow/run-map.js";
import type { StabilityMap } from "../map/format.js";
import type { Plan } from "../plan/plan.js";

export interface ReuseOptions {
  readonly fresh?: boolean;
  readonly quiet?: boolean;
  readonly unsealed?: boolean;
}

/** The map in the folder, if it is of this plan and --fresh was not given; else null. */
export function mapToReuse(
  plan: Plan,
  folder: string,
  { fresh, quiet, unsealed = false }: ReuseOptions,
): StabilityMap | null {
  const map = fresh ? null : reusableMap(plan, folder, { unsealed });
  if (map !== null && !quiet)
    process.stderr.write(`${printable(`using the map in ${folder}; --fresh simulates it again`)}\n`);
  return map;
}
