// A line through points that rise in x, read between them.
import { at, last } from "./at.js";

export type LinePoint = readonly [x: number, y: number | null];

/** y at x by a straight line between neighbours; beyond the ends, and beside a point without y, that of the nearest point; null: none. */
export function straightBetween(points: readonly LinePoint[], x: number): number | null {
  if (points.length === 0) return null;
  const next = points.findIndex(([px]) => px >= x);
  const right = next < 0 ? last(points) : at(points, next);
  const left = next < 1 ? right : at(points, next - 1);
  if (left[1] === null || right[1] === null || left[0] === right[0])
    return (x - left[0] < right[0] - x ? left : right)[1];
  return left[1] + ((right[1] - left[1]) * (x - left[0])) / (right[0] - left[0]);
}
