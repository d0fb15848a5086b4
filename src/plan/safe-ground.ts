// How far stable ground reaches and where the wanted margins hold, by theory alone, over every model a craft may be. Gains
// are in the units of files.
import { at, last } from "../base/at.js";
import { exp, ln } from "../base/elementary.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import type { Sweep } from "../sweep/sweep.js";
import { commonStable } from "../theory/ground.js";
import type { LoopPieces } from "../theory/pieces.js";
import { keepMargins } from "../theory/wanted-margins.js";

/** The loops of one model of the craft, one per throttle level and condition. */
export type ModelLoops = readonly LoopPieces[];

/** What a sweep file may write. */
export const P_RANGE = Object.freeze({ from: 0.1, to: 1000 });
export const LARGEST_D = 500;

/** Share of the models whose boundary lies inside, all parts of it. */
const MOST_MODELS = 0.95;

interface Reach {
  readonly p: number;
  readonly d: number;
}

/** The reach that no more than one model in twenty exceeds; null where none is stable at any gains. */
export function reachOfMost(models: readonly ModelLoops[], i: number): Reach | null {
  const reaches = models.map((loops) => reachOf(loops, i)).filter((reach) => reach !== null);
  if (reaches.length === 0) return null;
  const most = (values: readonly number[]): number =>
    at(
      [...values].sort((a, b) => a - b),
      Math.ceil(MOST_MODELS * values.length) - 1,
    );
  return { p: most(reaches.map(({ p }) => p)), d: most(reaches.map(({ d }) => d)) };
}

const D_STEPS = Object.freeze({ from: 0.01, ratio: 1.25, halvings: 5 });

/** Highest P of the worst-case boundary over all D, and the D from which on no P is stable. */
function reachOf(loops: ModelLoops, i: number): Reach | null {
  const range = { from: P_RANGE.from * P_UNIT, to: P_RANGE.to * P_UNIT };
  const endAt = (d: number) => commonStable(loops, { d: d * D_UNIT, i }, range)?.to ?? 0;
  let [p, stable, unstable] = [endAt(0), 0, 0];
  for (let d = D_STEPS.from; d < LARGEST_D; d *= D_STEPS.ratio) {
    const end = endAt(d);
    if (end > 0) [p, stable, unstable] = [Math.max(p, end), d, 0];
    else if (unstable === 0) unstable = d;
  }
  if (p === 0) return null;
  if (unstable === 0) return { p: p / P_UNIT, d: LARGEST_D };
  for (let halving = 0; halving < D_STEPS.halvings; halving++) {
    const middle = 0.5 * (stable + unstable);
    const end = endAt(middle);
    if (end > 0) [p, stable] = [Math.max(p, end), middle];
    else unstable = middle;
  }
  return { p: p / P_UNIT, d: unstable };
}

/** Where the margins hold, at nodes a constant factor apart. */
export interface Ground {
  readonly p: readonly number[];
  readonly d: readonly number[]; // 0 first
  /** Share of the models that keep the margins, [d][p]. */
  readonly share: readonly (readonly number[])[];
}

export interface GroundWish {
  readonly i: number; // SI
  readonly margins: Sweep["margins"];
}

/** Number of nodes, and how many times lower than the end of the range the lowest lies. */
const P_NODES = Object.freeze({ count: 48, depth: 200 });
const D_NODES = Object.freeze({ count: 28, depth: 40 });

export function safeGround(models: readonly ModelLoops[], { i, margins }: GroundWish, end: Reach): Ground {
  const p = byFactor(Math.max(P_RANGE.from, end.p / P_NODES.depth), end.p, P_NODES.count);
  const d = [0, ...byFactor(end.d / D_NODES.depth, end.d, D_NODES.count)];
  const nodes = d.flatMap((dAt) => p.map((pAt) => ({ p: pAt * P_UNIT, d: dAt * D_UNIT, i })));
  const count = new Uint16Array(nodes.length);
  for (const loops of models)
    for (const [node, keeps] of keepMargins(loops, nodes, margins).entries()) count[node] = at(count, node) + keeps;
  const shareAt = (row: number, column: number) => at(count, row * p.length + column) / models.length;
  return { p, d, share: d.map((_, row) => p.map((__, column) => shareAt(row, column))) };
}

function byFactor(from: number, to: number, count: number): number[] {
  const factor = exp(ln(to / from) / (count - 1));
  const line = [from];
  while (line.length < count - 1) line.push(last(line) * factor);
  return [...line, to];
}
