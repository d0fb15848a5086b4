// Is something still swinging at the end? Amplitude, growth and zero crossings of the calm tail, all three:
// a ratio alone takes a saturated limit cycle for calm, and a slow return is no oscillation.
import { ln } from "../base/elementary.js";
import { passagesAt, passagesOf } from "./passages.js";
import { lengths, type Reader, type Traced } from "./reader.js";
import * as s from "./sums.js";

export interface Swing {
  /** Half the swing of the rate in the last part of the tail, rad/s; a straight drift under it counts for nothing. */
  readonly amplitude: number;
  /** 1/s; negative dies out, -Infinity where nothing moves. */
  readonly growth: number;
  /** Half-cycles seen in the tail. */
  readonly halfCycles: number;
  readonly frequency: number; // Hz, 0 where fewer than two crossings
}

/** Share of the tail that each of the two overlapping windows of the growth spans. */
const GROWTH_WINDOW_SHARE = 0.6;
/**
 * Last share of the tail in which the amplitude is read. Exact from one and a half cycles in it on; the fewest half-cycles that
 * count leave a little less in it, and read up to an eighth low. A longer share would take the bend of a slow return for a swing.
 */
const AMPLITUDE_WINDOW_SHARE = 0.4;
/** Slopes tried: the fifth comes within 0.1 % of the narrowest strip of any steady swing of one and a half cycles or more. */
const ITERATIONS = 5;
/** Share of the weaker window's rms that a half-cycle must exceed: a quarter of a steady sine's amplitude. */
const PASSAGE_SHARE = 0.35;

/**
 * Reads the tail [from, to) of a trace of rates. Growth and crossings are read from the difference of neighbouring
 * samples: it weakens a slow return against the oscillation by the ratio of their rates and keeps the growth, and
 * unlike a difference over several samples it is blind to no frequency. `amplitude` where it is known already.
 */
export function swingOf(
  { trace, reader }: Traced,
  from: number,
  to: number,
  period: number,
  amplitude: number = amplitudeOf(reader, from, to),
): Swing {
  const length = to - from - 1;
  const window = Math.floor(GROWTH_WINDOW_SHARE * length);
  // Hann weights: a whole number of cycles is not needed.
  const counts = [from, from + length - window, window];
  reader.carryOut({ name: "energies", shared: hann(window), given: [], counts });
  const early = reader.sum(s.EARLY_ENERGY) / window;
  const late = reader.sum(s.LATE_ENERGY) / window;
  const growth = late > 0 ? ln(late / early) / 2 / ((length - window) * period) : Number.NEGATIVE_INFINITY;
  const threshold = PASSAGE_SHARE * Math.sqrt(Math.min(early, late));
  const passages = passagesOf(trace.subarray(from + 1, to), trace.subarray(from, to - 1), threshold);
  return { amplitude, growth, halfCycles: passages.count, frequency: passages.frequency(period) };
}

/** The weights used last: all trials of a script use the same. */
let cachedWeights = new Float64Array(0);

/** 1 - cos(2 pi k / length) by recurrence: the same bits everywhere. */
function hann(length: number): Float64Array {
  if (cachedWeights.length === length) return cachedWeights;
  const weights = new Float64Array(length);
  const turn = 2 - 4 * halfAngleSquared(Math.PI / length);
  let before = 1 - 2 * halfAngleSquared(Math.PI / length);
  let cosine = 1;
  for (let k = 0; k < length; k++) {
    weights[k] = 1 - cosine;
    const next = turn * cosine - before;
    before = cosine;
    cosine = next;
  }
  cachedWeights = weights;
  return weights;
}

/** sin^2 of a small angle to double precision, by its series. */
function halfAngleSquared(angle: number): number {
  const a = angle * angle;
  const sine = angle * (1 - (a / 6) * (1 - (a / 20) * (1 - (a / 42) * (1 - a / 72))));
  return sine * sine;
}

/** Share of the first, largest swing that a half-cycle of a nudge's ring must exceed: as much as leaves a stop's band. */
const RING_SHARE = Float64Array.of(0.05);

/**
 * Frequency at which a rate rings out in [from, to), Hz; 0 where fewer than two half-cycles are left to count. Read from the
 * difference of neighbouring samples like growth, so that a slow return under the ring does not matter.
 */
export function ringOf(reader: Reader, from: number, to: number, period: number): number {
  reader.carryOut({ name: "ring", shared: RING_SHARE, given: [], counts: [from, to] });
  const places = [reader.sum(s.FIRST_PASSAGE), reader.sum(s.PASSAGE_BEFORE_LAST), reader.sum(s.LAST_PASSAGE)] as const;
  return passagesAt(reader.sum(s.PASSAGES), places).frequency(period);
}

/** Half the width of the narrowest straight strip that holds the rate in the last part of the tail [from, to), rad/s. */
export function amplitudeOf(reader: Reader, from: number, to: number): number {
  const last = Math.floor(AMPLITUDE_WINDOW_SHARE * (to - from - 1));
  reader.carryOut({ name: "swing", shared: null, given: lengths(last), counts: [to - last, to, ITERATIONS] });
  return reader.sum(s.HALF_SWING);
}
