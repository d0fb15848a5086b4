// Simplifies lines: points that a drawing cannot show are left out.

type Place = readonly [x: number, y: number, ...rest: number[]];

/** The line without the points that lie within `off` of the straight line between those kept (Douglas and Peucker). */
export function simplify<P extends Place>(line: readonly P[], tolerance: readonly [x: number, y: number]): P[] {
  if (line.length < 3) return [...line];
  const [first, last] = [line[0], line[line.length - 1]];
  let [furthest, at] = [0, 0];
  for (let k = 1; k + 1 < line.length; k++) {
    const distance = fromChord(line[k], first, last, tolerance);
    if (distance > furthest) [furthest, at] = [distance, k];
  }
  if (furthest <= 1) return [first, last];
  return [...simplify(line.slice(0, at + 1), tolerance), ...simplify(line.slice(at), tolerance).slice(1)];
}

/** Distance of a point from the stretch between two others, both coordinates counted in units of `off`. */
function fromChord(point: Place, from: Place, to: Place, tolerance: readonly [number, number]): number {
  const scaled = (one: Place) => [(one[0] - from[0]) / tolerance[0], (one[1] - from[1]) / tolerance[1]];
  const [[x, y], [u, v]] = [scaled(point), scaled(to)];
  const square = u * u + v * v;
  const along = square === 0 ? 0 : Math.max(0, Math.min(1, (x * u + y * v) / square));
  const [dx, dy] = [x - along * u, y - along * v];
  return Math.sqrt(dx * dx + dy * dy);
}
