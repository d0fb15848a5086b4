// What theory answers of a craft: where an axis gives out, how far a tune is from it, and by what a tune is to be multiplied
// to be as far from it as before.
import type { AxisGains } from "../airframe/airframe.js";
import { ln } from "../base/elementary.js";
import { usefulFirst } from "../map/useful.js";
import { type Range, stableIntervals } from "../theory/boundary.js";
import { marginsOf } from "../theory/margins.js";
import { matchedGains } from "../theory/matched-gains.js";
import type { LoopPieces } from "../theory/pieces.js";

/** SI throughout. */
export interface AxisQuestion {
  /** D at which the boundary is looked at, and the P between which it is looked for. */
  readonly d: number;
  readonly range: Range;
  /** Whose margins are looked at; null: no tune is at hand. */
  readonly tune: Pick<AxisGains, "p" | "d"> | null;
  /** What is to be multiplied; null: the base has no starting tune. */
  readonly start: AxisGains | null;
}

export const MEASURES = ["boundary", "gain", "phase", "startP", "startD"] as const;
export type WhyMeasure = (typeof MEASURES)[number];

/**
 * Null: theory finds none. `boundary`: logarithm of the P at which the axis gives out at its worst throttle and pack. `gain`: dB
 * by which all gains may rise, negative where they must fall for the loop to be stable. `phase`: degrees, 0 where it is
 * unstable. `startP`, `startD`: logarithms of the factors that bring the start its margins of before.
 */
export type AxisAnswer = Readonly<Record<WhyMeasure, number | null>>;

/** Of loops of one axis at every throttle and pack; `before`: the base's. `i`: fraction per rad. */
export function answerOf(
  { d, range, tune, start }: AxisQuestion,
  loops: readonly LoopPieces[],
  i: number,
  before: readonly LoopPieces[],
): AxisAnswer {
  const gains = tune === null ? null : { ...tune, i };
  const matched = start === null ? null : matchedGains(before, loops, start);
  const factors = matched?.matched === true ? matched.factors : null;
  return {
    boundary: boundaryOf(loops, { d, i }, range),
    gain: gains === null ? null : least(loops.map((loop) => gainRoom(loop, gains))),
    phase: gains === null ? null : least(loops.map((loop) => marginsOf(loop, gains).phase)),
    startP: factors === null ? null : ln(factors.p),
    startD: factors?.d == null ? null : ln(factors.d),
  };
}

/** Of those that there are. */
function least(values: readonly (number | null)[]): number | null {
  const found = values.filter((one) => one !== null);
  return found.length === 0 ? null : Math.min(...found);
}

function boundaryOf(loops: readonly LoopPieces[], { d, i }: Pick<AxisGains, "d" | "i">, range: Range): number | null {
  const ends = loops.map((loop) => usefulFirst(stableIntervals(loop, d, i, range))[0]?.to ?? 0);
  const end = Math.min(...ends); // 0: nothing is stable at one of them
  return end > 0 && end < range.to ? ln(end) : null;
}

const HALVINGS = 6;
const HALF_IN_DECIBELS = (20 * Math.LN2) / Math.LN10;

/** Gain margin upwards in dB, also of a loop that less gain would make stable; null: no such limit. */
function gainRoom(loop: LoopPieces, { p, i, d }: AxisGains): number | null {
  for (let halving = 0; halving <= HALVINGS; halving++) {
    const factor = 1 / 2 ** halving;
    const { stable, gainUp } = marginsOf(loop, { p: p * factor, i: i * factor, d: d * factor });
    if (stable) return gainUp === null ? null : gainUp - halving * HALF_IN_DECIBELS;
  }
  return null;
}
