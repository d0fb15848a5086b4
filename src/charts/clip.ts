// The parts of lines that another area does not cover.
import type { Point, Polyline } from "./frame.js";
import { edgesOf } from "./lines.js";

/** Whether a point lies inside an odd number of the rings. */
export function inside(rings: readonly Polyline[], [x, y]: Point): boolean {
  let odd = false;
  for (const ring of rings)
    for (const [a, b] of edgesOf(ring))
      if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) odd = !odd;
  return odd;
}

/** The lines without the stretches between points inside the rings. */
export const outside = (lines: readonly Polyline[], rings: readonly Polyline[]): Polyline[] =>
  cutWhere(lines, (point) => inside(rings, point));

/** The lines without their points of a kind. */
export function cutWhere(lines: readonly Polyline[], cut: (point: Point) => boolean): Polyline[] {
  return lines.flatMap((line) => {
    const parts: Point[][] = [[]];
    for (const point of line) {
      if (cut(point)) parts.push([]);
      else parts.at(-1)?.push(point);
    }
    return parts.filter((part) => part.length > 1);
  });
}
