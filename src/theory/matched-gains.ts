// By how much P and D of a tune are to change for another craft, so that its loop is as far from giving out as the first one's:
// the pair of factors with which the worst gain margin and the worst phase margin are those of before. Two margins, two factors.
import type { AxisGains } from "../airframe/airframe.js";
import { exp, ln } from "../base/elementary.js";
import { type Margins, marginsOf } from "./margins.js";
import type { LoopPieces } from "./pieces.js";

/** I goes with P, so that the integral sums up for as long as before. */
export interface GainFactors {
  readonly p: number;
  /** Null: the tune has no D. */
  readonly d: number | null;
}

export interface MatchedGains {
  readonly factors: GainFactors;
  readonly before: Margins;
  /** At the changed gains. */
  readonly after: Margins;
  /** Both margins are those of before; else they are the nearest that were found. */
  readonly matched: boolean;
}

/** Worst of each margin over loops that one tune has to serve. */
export function worstMargins(loops: readonly LoopPieces[], gains: AxisGains): Margins {
  const all = loops.map((loop) => marginsOf(loop, gains));
  const least = (of: (one: Margins) => number | null): number | null => {
    const found = all.map(of).filter((one) => one !== null);
    return found.length === 0 ? null : Math.min(...found);
  };
  return {
    stable: all.every(({ stable }) => stable),
    gainUp: least(({ gainUp }) => gainUp),
    gainDown: least(({ gainDown }) => gainDown),
    phase: least(({ phase }) => phase),
  };
}

/** A degree counts as much as a sixth of a decibel. */
const DEGREES_PER_DECIBEL = 6;
const ENOUGH = 1e-6; // dB, of both misses together
const ROUNDS = 40;
const STEP = 1e-4; // of a factor's logarithm, for slopes
const FARTHEST = 16; // factor by which gains may fall before a loop counts as lost

/** Null where the tune is unstable before, or no common factor makes the changed craft stable. */
export function matchedGains(
  before: readonly LoopPieces[],
  after: readonly LoopPieces[],
  gains: AxisGains,
): MatchedGains | null {
  const wanted = worstMargins(before, gains);
  const first = wanted.stable ? commonFactor(after, gains, wanted) : null;
  if (first === null) return null;
  const hasD = gains.d > 0;
  const missesAt = (place: Factors) => misses(worstMargins(after, scaled(gains, place)), wanted);
  const start: Factors = [ln(first), ln(first)];
  const found = hasD ? searched(start, missesAt) : start;
  const margins = worstMargins(after, scaled(gains, found));
  return {
    factors: { p: exp(found[0]), d: hasD ? exp(found[1]) : null },
    before: wanted,
    after: margins,
    matched: sizeOf(misses(margins, wanted)) < 0.01,
  };
}

/** Logarithms of the factors on P and D. */
type Factors = readonly [p: number, d: number];
/** dB, and degrees in decibels. */
type Misses = readonly [gain: number, phase: number];

const scaled = ({ p, i, d }: AxisGains, [onP, onD]: Factors): AxisGains => ({
  p: p * exp(onP),
  i: i * exp(onP),
  d: d * exp(onD),
});

/** A margin that only one of the two has is none to match. */
function misses(found: Margins, wanted: Margins): Misses {
  const miss = (one: number | null, other: number | null) => (one === null || other === null ? 0 : one - other);
  if (!found.stable) return [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  return [miss(found.gainUp, wanted.gainUp), miss(found.phase, wanted.phase) / DEGREES_PER_DECIBEL];
}

const sizeOf = ([gain, phase]: Misses): number => Math.sqrt(gain * gain + phase * phase);

/** The factor on all gains together that brings the gain margin, exactly, since it scales the whole response. */
function commonFactor(loops: readonly LoopPieces[], gains: AxisGains, wanted: Margins): number | null {
  for (let factor = 1; factor >= 1 / FARTHEST; factor *= 0.8) {
    const { stable, gainUp } = worstMargins(loops, scaled(gains, [ln(factor), ln(factor)]));
    if (!stable) continue;
    if (gainUp === null || wanted.gainUp === null) return factor;
    return factor * exp(((gainUp - wanted.gainUp) * Math.LN10) / 20);
  }
  return null;
}

/** Levenberg and Marquardt's steps in two unknowns: from the common factor to the nearest pair that misses nothing, or least. */
function searched(start: Factors, missesAt: (place: Factors) => Misses): Factors {
  let place = start;
  let miss = missesAt(place);
  let damping = 1e-3;
  for (let round = 0; round < ROUNDS && sizeOf(miss) > ENOUGH; round++) {
    const slopes = slopesAt(place, missesAt);
    const next = stepFrom(place, miss, slopes, damping);
    const nextMiss = missesAt(next);
    if (sizeOf(nextMiss) < sizeOf(miss)) {
      [place, miss] = [next, nextMiss];
      damping = Math.max(damping / 10, 1e-12);
    } else damping *= 10;
  }
  return place;
}

interface Slopes {
  readonly p: Misses;
  readonly d: Misses;
}

function slopesAt([p, d]: Factors, missesAt: (place: Factors) => Misses): Slopes {
  const slope = (more: Misses, less: Misses): Misses => [
    (more[0] - less[0]) / (2 * STEP),
    (more[1] - less[1]) / (2 * STEP),
  ];
  return {
    p: slope(missesAt([p + STEP, d]), missesAt([p - STEP, d])),
    d: slope(missesAt([p, d + STEP]), missesAt([p, d - STEP])),
  };
}

/** Solves (J'J + damping diag) step = -J' miss. */
function stepFrom([p, d]: Factors, miss: Misses, slopes: Slopes, damping: number): Factors {
  const dot = (one: Misses, other: Misses) => one[0] * other[0] + one[1] * other[1];
  const [pp, dd, pd] = [dot(slopes.p, slopes.p), dot(slopes.d, slopes.d), dot(slopes.p, slopes.d)];
  const [a, c] = [pp + damping * (pp + dd), dd + damping * (pp + dd)];
  const determinant = a * c - pd * pd;
  const [onP, onD] = [dot(slopes.p, miss), dot(slopes.d, miss)];
  const step = [-(c * onP - pd * onD) / determinant, -(a * onD - pd * onP) / determinant] as const;
  const longest = Math.max(1, Math.abs(step[0]), Math.abs(step[1]));
  return Number.isFinite(longest) ? [p + step[0] / longest, d + step[1] / longest] : [p, d];
}
