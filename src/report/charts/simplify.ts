// Simplifies lines: fine grids would make pages heavy and pictures no better.
import type { Point, Polyline } from "./frame.js";

/** Douglas and Peucker's choice of points: none left out lies further from the line drawn than `tolerance`. Ends stay. */
export function simplified(line: Polyline, tolerance: number): Point[] {
  if (line.length < 3) return [...line];
  const keep = new Uint8Array(line.length).fill(1, 0, 1).fill(1, line.length - 1);
  const open: (readonly [number, number])[] = [[0, line.length - 1]];
  for (let span = open.pop(); span !== undefined; span = open.pop()) {
    const [from, to] = span;
    const [at, far] = furthest(line, from, to);
    if (far <= tolerance) continue;
    keep[at] = 1;
    open.push([from, at], [at, to]);
  }
  return line.filter((_, k) => keep[k] === 1);
}

/** The point between two others that lies furthest from their chord; a closed span is measured from its end. */
function furthest(line: Polyline, from: number, to: number): readonly [at: number, far: number] {
  const [a, b] = [line[from] as Point, line[to] as Point];
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.hypot(dx, dy);
  let [at, far] = [from, 0];
  for (let k = from + 1; k < to; k++) {
    const [x, y] = line[k] as Point;
    const off = length === 0 ? Math.hypot(x - a[0], y - a[1]) : Math.abs(dx * (y - a[1]) - dy * (x - a[0])) / length;
    if (off > far) [at, far] = [k, off];
  }
  return [at, far];
}
