// What becomes of a tune that was flown, once a fit has moved the boundary: the one judge of it.
import { straightBetween } from "../base/straight-between.js";
import type { BoundaryBandPoint, TuneCall } from "./format.js";

/** A boundary that moved by less than this share of P did not move: the band's own error. Ours, no source. */
const MOVED = 0.01;

export interface JudgedTune {
  readonly d: number;
  readonly safeShareBefore: number;
  readonly safeShareAfter: number;
}

/**
 * A fit that lowers the boundary at the tune's D, or leaves the tune safe in fewer draws than `confidence` (a fraction) and
 * than before, ends it: a new sweep and a new climb come first.
 */
export function tuneCall(
  { d, safeShareBefore, safeShareAfter }: JudgedTune,
  band: Bands,
  confidence: number,
): TuneCall {
  const fewer = safeShareAfter < confidence && safeShareAfter < safeShareBefore;
  return isLower(band, d) || fewer ? "do not fly" : "holds";
}

interface Bands {
  readonly before: readonly BoundaryBandPoint[];
  readonly after: readonly BoundaryBandPoint[];
}

/** Whether the middle of the boundary's band fell at this D. */
export const isLower = ({ before, after }: Bands, d: number): boolean =>
  middleAt(after, d) < (1 - MOVED) * middleAt(before, d);

const middleAt = (band: readonly BoundaryBandPoint[], d: number): number =>
  straightBetween(
    band.map((point) => [point.d, point.middle]),
    d,
  ) ?? Number.POSITIVE_INFINITY;
