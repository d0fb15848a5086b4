// One D of the sustained boundary as map.json writes it.
import type { Plan } from "../plan/plan.js";
import type { WorstInterval } from "./boundary.js";
import type { BoundaryPoint } from "./format.js";
import { culpritOf, dPeople, pPeople } from "./people.js";

/** The stable P range at an SI D, with who ends it. */
export function boundaryPoint(
  plan: Plan,
  gain: number,
  stable: WorstInterval | { readonly never: number },
): BoundaryPoint {
  const d = dPeople(gain);
  if ("never" in stable) return { d, p: null, reason: "always", ...culpritOf(plan, plan.variants[stable.never]) };
  const from = stable.fromOpen ? {} : { from: pPeople(stable.from) };
  if (stable.toOpen) return { d, p: null, reason: "never", ...from };
  return { d, p: pPeople(stable.to), ...culpritOf(plan, plan.variants[stable.toBy]), ...from };
}
