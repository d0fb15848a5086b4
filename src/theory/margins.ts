// How far a loop is from its stability boundary, and on which side: Nyquist's criterion on the grid.
import type { AxisGains } from "../airframe/airframe.js";
import { atan2, ln } from "../base/elementary.js";
import { type Crossing, passagesLeft, realCrossings, unitCrossings } from "./crossing.js";
import { type ComplexArray, complexArray } from "./frequency.js";
import { oncePer } from "./once.js";
import { type LoopPieces, openLoop } from "./pieces.js";

/** P, I and D are scaled together; null: no such limit. An unstable loop has no margin: all three are 0. */
export interface Margins {
  readonly stable: boolean;
  readonly gainUp: number | null; // dB until the loop is unstable
  readonly gainDown: number | null; // dB
  readonly phase: number | null; // degrees, lag or lead, whichever is nearer
}

/**
 * Worst margins over all crossings of the loop broken at the axis command. On the grid of axisPieces they carry an
 * error below 2e-6 dB and 2e-5 degrees. `room` holds the loop's response meanwhile.
 */
export function marginsOf(pieces: LoopPieces, gains: AxisGains, room?: ComplexArray): Margins {
  const loop = openLoop(pieces, gains, room);
  const crossed = crossedAxis(pieces, loop);
  if (unstableClosed(pieces, loop, crossed) !== 0) return { stable: false, gainUp: 0, gainDown: 0, phase: 0 };
  const levels = [...crossed.inside, ...crossed.end].map(({ re }) => decibels(-re));
  const angles = unitCrossings(pieces.frequencies, loop).map(({ re, im }) => Math.abs(atan2(-im, -re)));
  return {
    stable: true,
    gainUp: least(levels.filter((level) => level <= 0).map((level) => -level)),
    gainDown: least(levels.filter((level) => level > 0)),
    phase: least(angles.map((angle) => (180 / Math.PI) * angle)),
  };
}

/** Whether every pole of the closed loop is inside the unit circle (left of the axis for a continuous plant). */
export const isStable = (pieces: LoopPieces, gains: AxisGains): boolean => unstablePoles(pieces, gains) === 0;

const decibels = (ratio: number): number => (20 * ln(ratio)) / Math.LN10;
const least = (values: readonly number[]): number | null => (values.length === 0 ? null : Math.min(...values));

interface AxisCrossings {
  readonly inside: readonly Crossing[];
  /** The point at half the sampling rate, which has no mirror image at negative frequency. */
  readonly end: readonly Crossing[];
}

/** Where the response meets the negative real axis. */
function crossedAxis(pieces: LoopPieces, loop: ComplexArray): AxisCrossings {
  const { frequencies, closes } = pieces;
  return {
    inside: realCrossings(frequencies, loop, closes, NEGATIVE).filter(({ re }) => re < 0),
    end: crossedEnd(pieces, loop),
  };
}

function crossedEnd({ frequencies, closes }: LoopPieces, loop: ComplexArray): AxisCrossings["end"] {
  const last = frequencies.length - 1;
  const end = { frequency: frequencies[last], re: loop.re[last], im: 0, rising: loop.im[last - 1] < 0 };
  return closes && end.re < 0 ? [end] : [];
}

const NEGATIVE = Object.freeze({ from: Number.NEGATIVE_INFINITY, to: 0 });

/** Room for one loop's response at a time, on each array of frequencies. */
const roomOn = oncePer((frequencies: Float64Array) => complexArray(frequencies.length));

/** Poles of the closed loop outside the unit circle (right of the axis for a continuous plant). */
export function unstablePoles(pieces: LoopPieces, gains: AxisGains): number {
  const { frequencies, closes, unstable } = pieces; // read before the room is used: it may be computed there
  const loop = openLoop(pieces, gains, roomOn(frequencies));
  const inside = passagesLeft(frequencies, loop, closes);
  return unstableWith(unstable, loop, inside, crossedEnd(pieces, loop));
}

/**
 * Nyquist: every passage of the axis left of -1 with the imaginary part rising goes once around -1 clockwise. A
 * response that starts in the second quadrant has come through the axis at infinite size, from its poles at rest.
 */
const unstableClosed = (pieces: LoopPieces, loop: ComplexArray, { inside, end }: AxisCrossings): number =>
  unstableWith(pieces.unstable, loop, inside.reduce(around, 0), end);

function unstableWith(unstable: number, loop: ComplexArray, passages: number, end: AxisCrossings["end"]): number {
  const atRest = loop.re[0] < 0 && loop.im[0] > 0 ? 2 : 0;
  return unstable + atRest + 2 * passages + end.reduce(around, 0);
}

const around = (sum: number, { re, rising }: Crossing): number => (re < -1 ? sum + (rising ? 1 : -1) : sum);
