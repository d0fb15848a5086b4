// The two axes of a map in reading order, and functions that look up values of one of them.
import { type MeasureId, VERDICTS, type Verdict } from "../base/measures.js";
import type { AxisMap, BoundaryPoint, StabilityMap, StartingTune } from "../map/format.js";

export type Axis = keyof StabilityMap["axes"];
export const AXES: readonly Axis[] = Object.freeze(["roll", "pitch"]);
export const AXIS_TITLES: Readonly<Record<Axis, string>> = Object.freeze({ roll: "Roll", pitch: "Pitch" });

/** Share of the grid's points that carry each verdict. */
export function verdictShares(axis: AxisMap): Readonly<Record<Verdict, number>> {
  const all = axis.verdict.flat();
  const share = (verdict: Verdict) => all.filter((one) => one === verdict).length / all.length;
  return Object.fromEntries(VERDICTS.map((verdict) => [verdict, share(verdict)])) as Record<Verdict, number>;
}

/** Where oscillation sets in as P rises at this D, between the swept D by a straight line; p null: nowhere, or at once. */
export function boundaryAt(axis: AxisMap, d: number): BoundaryPoint | null {
  const points = axis.boundary.sustained;
  const after = points.findIndex((point) => point.d >= d);
  if (after < 0) return null;
  const [left, right] = [points[Math.max(0, after - 1)], points[after]];
  if (left === undefined || right === undefined) return null;
  const nearest = d - left.d < right.d - d ? left : right;
  if (left.p === null || right.p === null || left.d === right.d) return { ...nearest, d };
  const share = (d - left.d) / (right.d - left.d);
  return { ...nearest, d, p: left.p + share * (right.p - left.p) };
}

/** Index of the grid line nearest to a value. */
export function nearestLine(lines: readonly number[], value: number): number {
  return lines.reduce((best, line, i) => (Math.abs(line - value) < Math.abs((lines[best] ?? 0) - value) ? i : best), 0);
}

/** Why the starting tune has no such measure, taken from its nearest grid point: index into ABSENCES, 0 where there is no reason. */
export function absentAtStart({ axes }: StabilityMap, name: Axis, id: MeasureId, { p, d }: StartingTune): number {
  const { grid, absent } = axes[name];
  return absent[id][nearestLine(grid.d, d)]?.[nearestLine(grid.p, p)] ?? 0;
}
