// The P at which stable ground begins and ends, and the nearest end in another model of the same loop.
import { ln } from "../base/elementary.js";
import { type Range, stableIntervals, ultimateGain } from "./boundary.js";
import type { LoopPieces } from "./pieces.js";

export interface StableEnd {
  readonly p: number; // SI
  readonly upper: boolean;
}

/** Beyond the swept range by a hundredth, so that an end at its very edge is not missed. */
const WIDER = 1.01;

/**
 * Ends of the stable ranges of P between the first and the last of `line`, a little wider. With `decay` they lie where
 * a swing grows by that much (1/s) instead of standing; to first order.
 */
export function stableEnds(
  pieces: LoopPieces,
  { d, i }: { readonly d: number; readonly i: number },
  line: readonly number[],
  decay = 0,
): StableEnd[] {
  const range: Range = { from: line[0] / WIDER, to: line[line.length - 1] * WIDER };
  const points = ultimateGain(pieces, d, i, range);
  const moved = (edge: number, upper: boolean): StableEnd[] =>
    points.filter((point) => point.p === edge).map(({ perGrowth }) => ({ p: edge + perGrowth * decay, upper }));
  return stableIntervals(pieces, d, i, range).flatMap(({ from, to }) => [...moved(from, false), ...moved(to, true)]);
}

/** The end of the same kind that lies nearest by ratio. */
export function nearestEnd({ p, upper }: StableEnd, ends: readonly StableEnd[]): StableEnd | null {
  const alike = ends.filter((end) => end.upper === upper);
  return alike.sort((a, b) => Math.abs(ln(a.p / p)) - Math.abs(ln(b.p / p)))[0] ?? null;
}
