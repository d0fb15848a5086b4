// Lines made from scattered crossings: one list of P values per D, joined into polylines across neighbouring D.
import type { Point, Polyline } from "./frame.js";

interface CrossingsAtD {
  readonly d: number;
  readonly p: readonly number[];
}

/**
 * Joins each crossing to the nearest open line of the D before, unless it lies further than `reach` in P; over a step of D
 * wider than the others' mean a line may run as much further.
 */
export function joined(crossings: readonly CrossingsAtD[], reach: number): Polyline[] {
  const done: Point[][] = [];
  let open: Point[][] = [];
  const mean = ((crossings.at(-1)?.d ?? 0) - (crossings[0]?.d ?? 0)) / (crossings.length - 1);
  for (const [row, { d, p }] of crossings.entries()) {
    const continued: Point[][] = [];
    const wider = (d - (crossings[row - 1]?.d ?? d)) / mean;
    for (const [line, value] of pairs(open, p, wider > 1 + ROUNDING ? reach * wider : reach)) {
      line.push([d, value]);
      continued.push(line);
    }
    const taken = new Set(continued.map((line) => line.at(-1)?.[1]));
    const fresh = p.filter((value) => !taken.has(value)).map((value): Point[] => [[d, value]]);
    done.push(...fresh);
    open = [...continued, ...fresh];
  }
  return done;
}

const ROUNDING = 1e-9; // of even steps

function pairs(open: readonly Point[][], values: readonly number[], reach: number): [Point[], number][] {
  const gap = (line: Point[], value: number) => Math.abs((line.at(-1)?.[1] ?? 0) - value);
  const all = open.flatMap((line) => values.map((value) => ({ line, value, gap: gap(line, value) })));
  all.sort((a, b) => a.gap - b.gap);
  const [lines, taken] = [new Set<Point[]>(), new Set<number>()];
  const found: [Point[], number][] = [];
  for (const { line, value, gap: distance } of all) {
    if (distance > reach || lines.has(line) || taken.has(value)) continue;
    lines.add(line);
    taken.add(value);
    found.push([line, value]);
  }
  return found;
}

/** Each point of a closed ring with the one after it. */
export const edgesOf = (ring: Polyline): (readonly [from: Point, to: Point])[] =>
  ring.map((from, k) => [from, ring[(k + 1) % ring.length] ?? from]);

/** The parts of a closed ring that do not run along the frame. */
export function offFrame(ring: Polyline, onFrame: (a: Point, b: Point) => boolean): Polyline[] {
  const edges = edgesOf(ring).map(([from, to]) => ({ from, to, free: !onFrame(from, to) }));
  if (edges.every(({ free }) => free)) return ring.length === 0 ? [] : [[...ring, ...ring.slice(0, 1)]];
  const first = edges.findIndex(({ free }, k) => free && edges.at(k - 1)?.free === false);
  if (first < 0) return [];
  const parts: Point[][] = [];
  let open = false;
  for (const { from, to, free } of [...edges.slice(first), ...edges.slice(0, first)]) {
    if (free && !open) parts.push([from]);
    if (free) parts.at(-1)?.push(to);
    open = free;
  }
  return parts;
}
