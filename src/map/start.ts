// The starting tune: the place in the safe region whose nearest edge, as a factor in P or D, lies furthest away.
import { at, last, numberAt } from "../base/at.js";
import { ln } from "../base/elementary.js";
import { type Constraint, type Field, tightest } from "./field.js";

/** Places of the search lattice per grid cell: a few per cent of a gain would hang on chance if there were half as many. */
const PLACES_PER_CELL = 12;
/**
 * Weight of the room along the gain with more room, relative to that along the other. Where P alone limits, many D are nearly
 * equally good, and without this term chance would choose among them.
 */
const FAR_EDGE_WEIGHT = 0.25;
/** Room beyond this, a factor of seven, is as good as any. */
const AMPLE_ROOM = 2;

/** An edge met when P or D alone is changed; factor null: none, D may go to zero. */
export interface Edge {
  readonly factor: number | null;
  /** Null: the grid ends there. */
  readonly constraint: Constraint | null;
  /** Grid point nearest the edge, for the limiting case. */
  readonly point: number;
}

export interface Candidate {
  readonly p: number;
  readonly d: number;
  readonly score: number; // smallest log-distance to an edge
  readonly edges: { readonly pUp: Edge; readonly pDown: Edge; readonly dUp: Edge; readonly dDown: Edge };
}

interface Lattice {
  readonly p: Float64Array;
  readonly d: Float64Array;
  readonly room: Float64Array; // [row * p.length + column]; 0 at the edge, -1 around a refused place
}

interface Distances {
  readonly p: Float64Array;
  readonly d: Float64Array;
}

/** A pair of gains, SI. */
export interface Place {
  readonly p: number;
  readonly d: number;
}

/**
 * The best candidate away from `refused` places (each with a cell around it), or null where nothing is safe: the place with the
 * most room or, where one is wanted, the safe place nearest to it by factors. Its edges are those of `edges`, which may have
 * fewer constraints than the field that chooses.
 */
export function bestCandidate(
  field: Field,
  refused: readonly Place[],
  edges: Field = field,
  wanted: Place | null = null,
): Candidate | null {
  const lattice = latticeOf(field, refused);
  const width = lattice.p.length;
  const distance = distances(lattice);
  let best: { place: number; score: number; worth: number } | null = null;
  for (const [place, room] of lattice.room.entries()) {
    if (room < 0) continue;
    const [alongP, alongD] = [numberAt(distance.p, place), numberAt(distance.d, place)];
    const score = Math.min(alongP, alongD, AMPLE_ROOM);
    const roomy = score + FAR_EDGE_WEIGHT * Math.min(Math.max(alongP, alongD), AMPLE_ROOM);
    const gains = { p: numberAt(lattice.p, place % width), d: numberAt(lattice.d, Math.floor(place / width)) };
    const worth = wanted === null ? roomy : -factorsApart(gains, wanted);
    if (best === null || worth > best.worth) best = { place, score, worth };
  }
  if (best === null) return null;
  const [column, row] = [best.place % width, Math.floor(best.place / width)];
  return {
    p: numberAt(lattice.p, column),
    d: numberAt(lattice.d, row),
    score: best.score,
    edges: {
      pUp: edge(edges, column / PLACES_PER_CELL, row / PLACES_PER_CELL, 1, 0),
      pDown: edge(edges, column / PLACES_PER_CELL, row / PLACES_PER_CELL, -1, 0),
      dUp: edge(edges, column / PLACES_PER_CELL, row / PLACES_PER_CELL, 0, 1),
      dDown: edge(edges, column / PLACES_PER_CELL, row / PLACES_PER_CELL, 0, -1),
    },
  };
}

/** Square of the distance on a map drawn by factors; no factor leads from nothing to something. */
const factorsApart = (one: Place, other: Place): number =>
  logDistance(one.p, other.p) ** 2 + logDistance(one.d, other.d) ** 2;

function latticeOf(field: Field, refused: readonly Place[]): Lattice {
  const fine = (line: readonly number[]) =>
    Float64Array.from({ length: (line.length - 1) * PLACES_PER_CELL + 1 }, (_, k) => lineAt(line, k / PLACES_PER_CELL));
  const [p, d] = [fine(field.p), fine(field.d)];
  const room = new Float64Array(p.length * d.length);
  const around = refused.map((place) => ({
    ...place,
    pCell: cellAt(field.p, place.p),
    dCell: cellAt(field.d, place.d),
  }));
  for (const [row, dGain] of d.entries()) {
    for (const [column, pGain] of p.entries()) {
      const near = around.some(
        (place) => Math.abs(place.p - pGain) < place.pCell && Math.abs(place.d - dGain) < place.dCell,
      );
      room[row * p.length + column] = near ? -1 : tightest(field, column / PLACES_PER_CELL, row / PLACES_PER_CELL).room;
    }
  }
  return { p, d, room };
}

const EVEN = 1e-9; // by which rounding alone lets cells of even lines differ

/** Width of the cell that a gain lies in; of even lines that of the first, so that all are alike to the last bit. */
function cellAt(line: readonly number[], gain: number): number {
  const after = Math.max(
    1,
    line.findIndex((one) => one >= gain),
  );
  const [first, own] = [at(line, 1) - at(line, 0), at(line, after) - at(line, after - 1)];
  return Math.abs(own - first) <= EVEN * first ? first : own;
}

const lineAt = (line: readonly number[], cell: number): number => {
  const i = Math.min(line.length - 2, Math.floor(cell));
  return at(line, i) + (cell - i) * (at(line, i + 1) - at(line, i));
};

/** Log-distance from each safe place to the nearest edge or the grid's end, along P and along D. */
function distances({ p, d, room }: Lattice): Distances {
  const width = p.length;
  const found = { p: new Float64Array(room.length), d: new Float64Array(room.length) };
  const along = (gain: Float64Array, place: (k: number) => number, out: Float64Array) => {
    const end = gain.length - 1;
    for (let k = 0; k <= end; k++) out[place(k)] = Number.POSITIVE_INFINITY;
    for (const from of [0, end]) {
      const onwards = from === 0 ? 1 : -1;
      let edgeAt = numberAt(gain, from);
      for (let k = from; k >= 0 && k <= end; k += onwards) {
        const here = numberAt(room, place(k));
        const own = numberAt(gain, k);
        if (here >= 0) out[place(k)] = Math.min(numberAt(out, place(k)), logDistance(own, edgeAt));
        else {
          const next = Math.max(0, Math.min(end, k + onwards));
          const ahead = Math.max(0, numberAt(room, place(next)));
          edgeAt = own + (here / (here - ahead)) * (numberAt(gain, next) - own);
        }
      }
    }
  };
  for (let row = 0; row < d.length; row++) along(p, (k) => row * width + k, found.p);
  for (let column = 0; column < width; column++) along(d, (k) => k * width + column, found.d);
  return found;
}

/** A gain that may fall to zero, or rise from it, is as far as can be from there. */
const logDistance = (gain: number, wall: number): number =>
  gain > 0 && wall > 0 ? Math.abs(ln(gain / wall)) : Number.POSITIVE_INFINITY;

/** Walks from a safe place along one gain until room runs out. */
function edge(field: Field, column: number, row: number, right: number, up: number): Edge {
  const gainAt = (x: number, y: number) => (right !== 0 ? lineAt(field.p, x) : lineAt(field.d, y));
  const from = gainAt(column, row);
  const stride = 1 / (2 * PLACES_PER_CELL);
  for (let step = 1; ; step++) {
    const x = column + right * step * stride;
    const y = row + up * step * stride;
    const out = x < 0 || y < 0 || x > field.p.length - 1 || y > field.d.length - 1;
    const point = nearest(field, x, y);
    if (out) {
      const zero = up < 0 && at(field.d, 0) <= 0;
      const line = right !== 0 ? field.p : field.d;
      const end = right + up > 0 ? last(line) : at(line, 0);
      return { factor: zero || from === 0 ? null : end / from, constraint: null, point };
    }
    const { room, constraint } = tightest(field, x, y);
    if (room < 0) return { factor: from === 0 ? null : gainAt(x, y) / from, constraint, point };
  }
}

function nearest({ p, d }: Field, column: number, row: number): number {
  const i = Math.max(0, Math.min(p.length - 1, Math.round(column)));
  const j = Math.max(0, Math.min(d.length - 1, Math.round(row)));
  return j * p.length + i;
}
