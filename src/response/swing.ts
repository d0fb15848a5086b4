// Is something still swinging at the end? Amplitude, growth and zero crossings of the calm tail, all three:
// a ratio alone takes a saturated limit cycle for calm, and a slow return is no oscillation.
import { ln } from "../base/elementary.js";
import { lineThrough } from "./line.js";
import { passagesOf } from "./passages.js";

export interface Swing {
  /** Half the swing of the rate about its drift in the last part of the tail, rad/s. */
  readonly amplitude: number;
  /** 1/s; negative dies out, -Infinity where nothing moves. */
  readonly growth: number;
  /** Half-cycles seen in the tail. */
  readonly halfCycles: number;
  readonly frequency: number; // Hz, 0 where fewer than two crossings
}

/** Share of the tail that each of the two overlapping windows of the growth spans. */
const SHARE = 0.6;
/** Last share of the tail in which the amplitude is read. */
const LAST = 0.4;
/** Share of the weaker window's rms that a half-cycle must exceed: a quarter of a steady sine's amplitude. */
const COUNTS = 0.35;

/**
 * Reads the tail [from, to) of a trace of rates. Growth and crossings are read from the difference of neighbouring
 * samples: it weakens a slow return against the oscillation by the ratio of their rates and keeps the growth, and
 * unlike a difference over several samples it is blind to no frequency. `room` is for these differences, `amplitude` where it is
 * known already.
 */
export function swingOf(
  trace: Float64Array,
  from: number,
  to: number,
  period: number,
  room: Float64Array = new Float64Array(to - from),
  amplitude: number = amplitudeOf(trace, from, to),
): Swing {
  const length = to - from - 1;
  const window = Math.floor(SHARE * length);
  const changes = differences(trace, from, length, room);
  const { early, late } = energies(changes, length - window, window);
  const growth = late > 0 ? ln(late / early) / 2 / ((length - window) * period) : Number.NEGATIVE_INFINITY;
  const passages = passagesOf(changes, length, COUNTS * Math.sqrt(Math.min(early, late)));
  return { amplitude, growth, halfCycles: passages.count, frequency: passages.frequency(period) };
}

function differences(trace: Float64Array, from: number, length: number, room: Float64Array): Float64Array {
  let before = trace[from];
  for (let k = 0; k < length; k++) {
    const now = trace[from + k + 1];
    room[k] = now - before;
    before = now;
  }
  return room;
}

/** Hann-weighted mean squares of two windows, from 0 and from `again`: a whole number of cycles is not needed. */
function energies(changes: Float64Array, again: number, window: number): { early: number; late: number } {
  const weights = hann(window);
  let early = 0;
  let late = 0;
  for (let k = 0; k < window; k++) {
    const weight = weights[k];
    const first = changes[k];
    const second = changes[again + k];
    early += weight * (first * first);
    late += weight * (second * second);
  }
  return { early: early / window, late: late / window };
}

/** The weights last asked for: trial after trial of a script asks for the same. */
let lastWeights = new Float64Array(0);

/** 1 - cos(2 pi k / length) by recurrence: the same bits everywhere. */
function hann(length: number): Float64Array {
  if (lastWeights.length === length) return lastWeights;
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
  lastWeights = weights;
  return weights;
}

/** sin^2 of a small angle to double precision, by its series. */
function halfAngleSquared(angle: number): number {
  const a = angle * angle;
  const sine = angle * (1 - (a / 6) * (1 - (a / 20) * (1 - (a / 42) * (1 - a / 72))));
  return sine * sine;
}

/** Half the swing of a trace of rates about its drift in the last part of the tail [from, to), rad/s. */
export function amplitudeOf(trace: Float64Array, from: number, to: number): number {
  return halfSwing(trace, to - Math.floor(LAST * (to - from - 1)), to);
}

function halfSwing(trace: Float64Array, from: number, to: number): number {
  const { slope } = lineThrough(trace, from, to);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let k = from; k < to; k++) {
    const value = trace[k] - slope * (k - from);
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return 0.5 * (high - low);
}
