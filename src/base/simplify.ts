// Lines without the points nobody would miss: fine grids would make files and pages heavy and pictures no better.

type Place = readonly [x: number, y: number, ...rest: number[]];

/**
 * Douglas and Peucker's choice of points: none left out lies further from the line drawn than `tolerance`, counted apart
 * along each coordinate. Ends stay; coordinates after the second are carried along.
 */
export function simplify<P extends Place>(line: readonly P[], tolerance: readonly [x: number, y: number]): P[] {
  if (line.length < 3) return [...line];
  const chosen = new Uint8Array(line.length).fill(1, 0, 1).fill(1, line.length - 1);
  const open: (readonly [number, number])[] = [[0, line.length - 1]];
  for (let span = open.pop(); span !== undefined; span = open.pop()) {
    const [from, to] = span;
    const [at, distance] = furthest(line, from, to, tolerance);
    if (distance <= 1) continue;
    chosen[at] = 1;
    open.push([from, at], [at, to]);
  }
  return line.filter((_, k) => chosen[k] === 1);
}

/** The point between two others that lies furthest from the stretch between them, in tolerances. */
function furthest(
  line: readonly Place[],
  from: number,
  to: number,
  tolerance: readonly [number, number],
): readonly [at: number, distance: number] {
  const [first, last] = [line[from] as Place, line[to] as Place];
  let [at, most] = [from, 0];
  for (let k = from + 1; k < to; k++) {
    const distance = fromStretch(line[k] as Place, first, last, tolerance);
    if (distance > most) [at, most] = [k, distance];
  }
  return [at, most];
}

function fromStretch(point: Place, from: Place, to: Place, tolerance: readonly [number, number]): number {
  const scaled = (one: Place) => [(one[0] - from[0]) / tolerance[0], (one[1] - from[1]) / tolerance[1]] as const;
  const [[x, y], [u, v]] = [scaled(point), scaled(to)];
  const square = u * u + v * v;
  const along = square === 0 ? 0 : Math.max(0, Math.min(1, (x * u + y * v) / square));
  const [dx, dy] = [x - along * u, y - along * v];
  return Math.sqrt(dx * dx + dy * dy);
}
