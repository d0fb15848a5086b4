// One D of the sustained boundary as map.json writes it.
import type { Plan } from "../plan/plan.js";
import type { RowBoundary, WorstInterval } from "./boundary.js";
import { deciderIn, toDisplayD, toDisplayP } from "./display-units.js";
import type { BoundaryPoint } from "./format.js";

/** The stable P range that counts at an SI D, with its limiting cases and the ranges apart from it. */
export function boundaryPoint(plan: Plan, gain: number, stable: RowBoundary): BoundaryPoint {
  const d = toDisplayD(gain);
  if ("never" in stable) return { d, p: null, reason: "always", ...deciderIn(plan, stable.never) };
  const rest = { ...lowerEnd(plan, stable), ...apart(stable) };
  if (stable.toOpen) return { d, p: null, reason: "never", ...rest };
  return { d, p: toDisplayP(stable.to), ...deciderIn(plan, stable.toBy), ...rest };
}

function lowerEnd(
  plan: Plan,
  { from, fromOpen, fromBy }: WorstInterval,
): Pick<BoundaryPoint, "from" | "fromDecidedBy"> {
  const by = deciderIn(plan, fromBy);
  return fromOpen ? {} : { from: toDisplayP(from), ...(by === null ? {} : { fromDecidedBy: by }) };
}

const apart = ({ others }: WorstInterval): Pick<BoundaryPoint, "otherRanges"> =>
  others === undefined
    ? {}
    : {
        otherRanges: others.map(
          ({ from, to, fromOpen, toOpen }) =>
            [fromOpen ? null : toDisplayP(from), toOpen ? null : toDisplayP(to)] as const,
        ),
      };
