// Where a measure passes its limit, as lines; only where the oscillation dies out, since the measure has no meaning
// elsewhere.
import type { AxisMap, LimitCrossing } from "../map/format.js";
import type { Polyline } from "./frame.js";
import { joined } from "./lines.js";

const REACH = 0.12; // share of the P range within which crossings of neighbouring D belong to one line

/** The lines of one measure on one axis. */
export function limitLines(axis: AxisMap, id: "overshoot" | "settling"): Polyline[] {
  const { p } = axis.grid;
  const reach = REACH * ((p.at(-1) ?? 0) - (p[0] ?? 0));
  return joined(
    axis.boundary[id].map((at) => whereItDiesOut(axis, at)),
    reach,
  );
}

function whereItDiesOut({ grid, verdict }: AxisMap, { d, p }: LimitCrossing): LimitCrossing {
  const row = verdict[grid.d.indexOf(d)] ?? [];
  const stable = (value: number) => {
    const above = grid.p.findIndex((line) => line >= value);
    return above > 0 && row[above] !== "sustained" && row[above - 1] !== "sustained";
  };
  return { d, p: p.filter(stable) };
}
