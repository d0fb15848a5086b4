// Closed outlines of the points that belong to a set, by marching squares: the outline runs between grid points
// that belong and those that do not, and along the frame where the set reaches it.
import type { Point } from "./frame.js";

/** Grid lines, D first. */
interface Lattice {
  readonly d: readonly number[];
  readonly p: readonly number[];
}

/** Share of the way (0 to 1) from grid point (i, j) to its neighbour in D or P at which the outline crosses. */
export type Crossing = (i: number, j: number, along: "d" | "p") => number;
export type Belongs = (i: number, j: number) => boolean;

type Side = "bottom" | "right" | "top" | "left";

// By corner bits (1 bottom left, 2 bottom right, 4 top right, 8 top left): where the outline enters and leaves a
// square, the set on its left. Two opposite corners are kept apart.
const B = "bottom";
const R = "right";
const T = "top";
const L = "left";
const STEPS: readonly (readonly (readonly [Side, Side])[])[] = [
  [],
  [[B, L]],
  [[R, B]],
  [[R, L]],
  [[T, R]],
  [
    [B, L],
    [T, R],
  ],
  [[T, B]],
  [[T, L]],
  [[L, T]],
  [[B, T]],
  [
    [R, B],
    [L, T],
  ],
  [[R, T]],
  [[L, R]],
  [[B, R]],
  [[L, B]],
  [],
];

/** One key for the edge two neighbouring squares share. */
function edgeKey(i: number, j: number, side: Side): string {
  if (side === "bottom") return `d ${i} ${j}`;
  if (side === "top") return `d ${i} ${j + 1}`;
  return side === "left" ? `p ${i} ${j}` : `p ${i + 1} ${j}`;
}

/**
 * Closed rings of (D, P), outer ones counter-clockwise, holes clockwise; the last point does not repeat the first. Each
 * has three points or more: a set that shrinks to points or lines, where values just meet their level, has no outline.
 */
export function rings(lattice: Lattice, belongs: Belongs, crossing: Crossing): Point[][] {
  const next = new Map<string, string>();
  for (let i = -1; i < lattice.d.length; i++)
    for (let j = -1; j < lattice.p.length; j++)
      for (const [from, to] of STEPS[corners(lattice, belongs, i, j)] ?? [])
        next.set(edgeKey(i, j, from), edgeKey(i, j, to));
  return chains(next)
    .map((keys) => withoutSpurs(keys.map((key) => place(lattice, key, crossing))))
    .filter((ring) => ring.length > 0);
}

const within = (lattice: Lattice, i: number, j: number): boolean =>
  i >= 0 && j >= 0 && i < lattice.d.length && j < lattice.p.length;

function corners(lattice: Lattice, belongs: Belongs, i: number, j: number): number {
  const bit = (a: number, b: number, weight: number) => (within(lattice, a, b) && belongs(a, b) ? weight : 0);
  return bit(i, j, 1) + bit(i + 1, j, 2) + bit(i + 1, j + 1, 4) + bit(i, j + 1, 8);
}

function chains(next: Map<string, string>): string[][] {
  const found: string[][] = [];
  for (const first of [...next.keys()]) {
    const ring: string[] = [];
    for (let key: string | undefined = first; key !== undefined && next.has(key); ) {
      const to: string | undefined = next.get(key);
      next.delete(key);
      ring.push(key);
      key = to;
    }
    if (ring.length > 0) found.push(ring);
  }
  return found;
}

function place(lattice: Lattice, key: string, crossing: Crossing): Point {
  const [along, first, second] = key.split(" ");
  const [i, j] = [Number(first), Number(second)];
  const [a, b] = along === "d" ? [i + 1, j] : [i, j + 1];
  const clamp = (k: number, line: readonly number[]) => line[Math.min(Math.max(k, 0), line.length - 1)] ?? 0;
  const inside = within(lattice, i, j) && within(lattice, a, b);
  const share = inside ? crossing(i, j, along === "d" ? "d" : "p") : 0;
  const mix = (from: number, to: number) => from + share * (to - from);
  return [mix(clamp(i, lattice.d), clamp(a, lattice.d)), mix(clamp(j, lattice.p), clamp(b, lattice.p))];
}

const same = (a: Point | undefined, b: Point | undefined): boolean => a?.[0] === b?.[0] && a?.[1] === b?.[1];

/** The ring without repeated points and without stretches walked there and straight back; empty where nothing is left. */
function withoutSpurs(ring: readonly Point[]): Point[] {
  const left: Point[] = [];
  for (const point of ring) {
    if (left.length > 0 && same(point, left.at(-1))) continue;
    if (left.length > 1 && same(point, left.at(-2))) left.pop();
    else left.push(point);
  }
  // The same where the ring closes.
  while (left.length > 2) {
    if (same(left[0], left.at(-1)) || same(left[0], left.at(-2))) left.pop();
    else if (same(left[1], left.at(-1))) left.shift();
    else return left;
  }
  return [];
}
