// Whether a place between grid lines lies in a map's safe region: the same constraints and the same interpolation as
// the search for the starting tune, rebuilt from map.json.
import { at } from "../base/at.js";
import { MEASURE_IDS } from "../base/measures.js";
import type { WorstInterval } from "../map/boundary.js";
import { DEGREES, roundToTwelveDigits } from "../map/display-units.js";
import { type Field, fieldOf, tightest } from "../map/field.js";
import type { AxisMap, BoundaryPoint, StabilityMap } from "../map/format.js";
import type { PointMargins } from "../map/margins.js";
import type { WorstPoint } from "../map/worst.js";
import type { Axis } from "./format.js";
import { planOf } from "./question.js";

interface Gains {
  readonly p: number;
  readonly d: number;
}

/** Room to the nearest limit as a share of that limit, negative beyond it; null outside the grid. */
export function roomIn(map: StabilityMap, axis: Axis, gains: Gains): number | null {
  const found = tightestIn(map, axis, gains);
  return found === null ? null : roundToTwelveDigits(found.room);
}

/** That room and what leaves no more; null outside the grid. */
export function tightestIn(map: StabilityMap, axis: Axis, { p, d }: Gains): ReturnType<typeof tightest> | null {
  const { grid } = map.axes[axis];
  const [column, row] = [cellOf(grid.p, p), cellOf(grid.d, d)];
  return column === null || row === null ? null : tightest(fieldOfMap(map, map.axes[axis]), column, row);
}

/** A value's place on a rising line, in cells. */
function cellOf(line: readonly number[], value: number): number | null {
  const after = line.findIndex((one) => one >= value);
  if (after < 0 || value < (line[0] ?? Number.POSITIVE_INFINITY)) return null;
  if (after === 0) return 0;
  const [from, to] = [at(line, after - 1), at(line, after)];
  return after - 1 + (value - from) / (to - from);
}

const pointsOf = ({ grid: { p, d } }: AxisMap): (readonly [i: number, j: number])[] =>
  d.flatMap((_, i) => p.map((__, j) => [i, j] as const));

/** Of every grid point, [d * p.length + p]; whose trial it was a map does not say. */
export const worstCases = (axis: AxisMap): WorstPoint[] => pointsOf(axis).map(([i, j]) => worstAt(axis, i, j));

/** The constraints of an axis, by grid point. */
export function fieldOfMap(map: StabilityMap, axis: AxisMap): Field {
  const { p, d } = axis.grid;
  const points = pointsOf(axis);
  return fieldOf({
    p,
    d,
    worst: worstCases(axis),
    margins: points.map(([i, j]) => marginsAt(axis, i, j)),
    sustained: axis.boundary.sustained.map(intervalOf),
    limits: map.limits,
    required: planOf(map).sweep.margins,
  });
}

function worstAt({ measures, absent }: AxisMap, i: number, j: number): WorstPoint {
  const entries = MEASURE_IDS.map((id) => {
    const value = measures[id][i]?.[j] ?? null;
    return [id, { value, absent: absent[id][i]?.[j] ?? 0, variant: -1 }];
  });
  return Object.fromEntries(entries) as WorstPoint;
}

/** Null in the file: no rise destabilises, no fall does, no crossing at all. */
function marginsAt({ margins }: AxisMap, i: number, j: number): PointMargins {
  return {
    gainUp: margins.gainUp[i]?.[j] ?? Number.POSITIVE_INFINITY,
    gainDown: margins.gainDown[i]?.[j] ?? null,
    phase: (margins.phase[i]?.[j] ?? 180) / DEGREES,
    gainBy: -1,
    phaseBy: -1,
  };
}

function intervalOf({ p, from, reason }: BoundaryPoint): WorstInterval | { readonly never: number } {
  if (reason === "always") return { never: -1 };
  const [fromOpen, toOpen] = [from === undefined, p === null];
  return { from: from ?? 0, to: p ?? Number.POSITIVE_INFINITY, fromOpen, toOpen, fromBy: -1, toBy: -1 };
}
