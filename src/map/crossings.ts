// Where the worst case of one measure passes its limit along P: the lines a chart draws for bounce-back and settling.
import { at } from "../base/at.js";
import { type MeasureId, measureOf } from "../base/measures.js";
import { slack } from "./verdict.js";
import type { WorstPoint } from "./worst.js";

/**
 * Per D the P (SI) at which the room to the limit changes sign, by straight lines between grid points. A point that
 * failed at the measure counts as beyond the limit by its whole; between points that show nothing there is no crossing.
 */
export function limitCrossings(
  p: readonly number[],
  d: readonly number[],
  worst: readonly WorstPoint[],
  id: MeasureId,
  limit: number,
): number[][] {
  return d.map((_, row) => {
    const rooms = p.map((__, column) => slack(measureOf(id), at(worst, row * p.length + column)[id], limit));
    const found: number[] = [];
    for (let column = 0; column + 1 < p.length; column++) {
      const [a, b] = [at(rooms, column), at(rooms, column + 1)];
      if (a === null || b === null || a < 0 === b < 0) continue;
      const [low, high] = [at(p, column), at(p, column + 1)];
      found.push(low + (a / (a - b)) * (high - low));
    }
    return found;
  });
}
