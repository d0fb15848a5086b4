// Where the border between two neighbouring grid points lies: on the refined boundary, on the limit a measure
// crosses between them, or else half way. Every set whose border passes there uses the same place.
import { MEASURES, VERDICTS, type Verdict } from "../base/measures.js";
import type { AxisMap, BoundaryPoint, StabilityMap } from "../map/format.js";
import type { Crossing } from "./rings.js";

const HALF_WAY = 0.5;

/** What borders on one axis are drawn from. */
export type GroundAxis = Pick<AxisMap, "grid" | "verdict" | "measures" | "safe"> & {
  readonly boundary: Pick<AxisMap["boundary"], "sustained">;
};
export type GroundMap = Pick<StabilityMap, "limits">;

/** The crossing between verdicts on one axis of the map. */
export function verdictCrossing(map: GroundMap, axis: GroundAxis): Crossing {
  const ends = boundaryEnds(axis);
  return (i, j, along) => {
    const [a, b] = along === "d" ? [i + 1, j] : [i, j + 1];
    const [from, to] = [axis.verdict[i]?.[j], axis.verdict[a]?.[b]];
    if (from === undefined || to === undefined || from === to) return HALF_WAY;
    if (from === "sustained" || to === "sustained")
      return along === "p" ? alongP(axis.grid.p, ends[i], j) : alongD(axis.grid.p[j] ?? 0, ends[i], ends[i + 1]);
    return limitShare(map, axis, [i, j], [a, b], graver(from, to));
  };
}

const graver = (one: Verdict, other: Verdict): Verdict =>
  VERDICTS.indexOf(one) < VERDICTS.indexOf(other) ? one : other;

// Upper, lower end of the stable interval at one D, then those of intervals apart from it; none where nothing is stable.
type Ends = readonly number[];

/** An open end counts as the edge of the grid. */
function boundaryEnds(axis: GroundAxis): Ends[] {
  const { d: ds, p: ps } = axis.grid;
  const [bottom, top] = [ps[0] ?? 0, ps.at(-1) ?? 0];
  const endsOf = ({ p, from, reason, otherRanges = [] }: BoundaryPoint): Ends =>
    reason === "always"
      ? []
      : [p ?? top, from ?? bottom, ...otherRanges.flatMap(([low, high]) => [high ?? top, low ?? bottom])];
  const byD = new Map(axis.boundary.sustained.map((point) => [point.d, endsOf(point)]));
  return ds.map((d) => byD.get(d) ?? []);
}

function alongP(ps: readonly number[], ends: Ends | undefined, j: number): number {
  const [low, high] = [ps[j] ?? 0, ps[j + 1] ?? 1];
  const met = ends?.find((end) => end > low && end < high);
  return met === undefined ? HALF_WAY : (met - low) / (high - low);
}

function alongD(p: number, left: Ends | undefined, right: Ends | undefined): number {
  for (const k of [0, 1]) {
    const [from, to] = [left?.[k], right?.[k]];
    if (from !== undefined && to !== undefined && from < p !== to < p) return (p - from) / (to - from);
  }
  return HALF_WAY;
}

type Place = readonly [i: number, j: number];

/** Where the first measure that can argue for the verdict passes its limit, by linear interpolation. */
function limitShare(map: GroundMap, axis: GroundAxis, from: Place, to: Place, verdict: Verdict): number {
  const shares = MEASURES.filter(
    (m) => m.argues === verdict || (m.argues !== null && !m.always && verdict !== "hot"),
  ).flatMap((m) => {
    const limit = map.limits[m.id];
    const [a, b] = [axis.measures[m.id][from[0]]?.[from[1]], axis.measures[m.id][to[0]]?.[to[1]]];
    if (limit === null || a == null || b == null || a < limit === b < limit) return [];
    return [(limit - a) / (b - a)];
  });
  const worseIsThere = axis.verdict[to[0]]?.[to[1]] === verdict;
  return shares.length === 0 ? HALF_WAY : worseIsThere ? Math.min(...shares) : Math.max(...shares);
}
