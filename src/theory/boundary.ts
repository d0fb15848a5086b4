// Where the loop sits on the edge of stability: in P at a given D, and in the plane of P and D.
import type { AxisGains } from "../airframe/airframe.js";
import { between, realCrossings, type Span } from "./crossing.js";
import { type ComplexArray, complexArray } from "./frequency.js";
import { isStable } from "./margins.js";
import { oncePer } from "./once.js";
import type { LoopPieces } from "./pieces.js";

/** A P (fraction per rad/s) at which an undamped oscillation of this frequency (rad/s) stands. */
export interface UltimatePoint {
  readonly p: number;
  readonly frequency: number;
  /** P that must be added for the oscillation to grow by 1/s instead of standing; to first order. */
  readonly perGrowth: number;
}

export type Range = Span;

/**
 * Every P in the range at which the loop is on its boundary for these D and I, rising. 1 + P a + D b + I c = 0 asks
 * that -(1 + D b + I c)/a be real, and P is then its value: all of them are found, none by search in P. Error below
 * 1e-6 of P on the grids of this room. A real pole through rest is not listed: with a positive gain at rest it
 * needs a negative P.
 */
export function ultimateGain(pieces: LoopPieces, d: number, i: number, range: Range): UltimatePoint[] {
  const needed = neededP(pieces, d, i);
  return pointsIn(pieces, d, i, needed, range).map(({ p, frequency }) => ({
    p,
    frequency,
    perGrowth: growthSlope(pieces.frequencies, needed, frequency),
  }));
}

/** Room for one such P at a time, on each array of frequencies. */
const roomOn = oncePer((frequencies: Float64Array) => complexArray(frequencies.length));

/** The complex P at which the loop would be on its boundary at each frequency. */
function neededP({ frequencies, a, b, c }: LoopPieces, d: number, i: number): ComplexArray {
  const out = roomOn(frequencies);
  for (let k = 0; k < frequencies.length; k++) {
    const [x, y] = [-1 - d * b.re[k] - i * c.re[k], -d * b.im[k] - i * c.im[k]];
    const square = a.re[k] * a.re[k] + a.im[k] * a.im[k];
    out.re[k] = (x * a.re[k] + y * a.im[k]) / square;
    out.im[k] = (y * a.re[k] - x * a.im[k]) / square;
  }
  return out;
}

/** Where it is real and within the range, rising. */
function pointsIn(pieces: LoopPieces, d: number, i: number, needed: ComplexArray, range: Range) {
  const { frequencies, closes } = pieces;
  const last = frequencies.length - 1;
  const points = realCrossings(frequencies, needed, closes, range).map(({ re, frequency }) => ({ p: re, frequency }));
  if (closes) points.push({ p: needed.re[last], frequency: frequencies[last] });
  return points
    .filter(({ p, frequency }) => p >= range.from && p <= range.to && stands(pieces, { p, d, i }, frequency))
    .sort((one, other) => one.p - other.p);
}

/** Of 1 + P a + D b + I c to its terms: 0 where an oscillation stands, 1 where nothing passes at all. */
const LEFT_OVER = 0.5;

/** Not so in a notch of the gyro's chain: a is 0 there, and the P that it needs passes through infinity, not through a real number. */
function stands(pieces: LoopPieces, { p, d, i }: AxisGains, frequency: number): boolean {
  const { frequencies, a, b, c } = pieces;
  const above = frequencies.findIndex((w) => w > frequency);
  const k = (above < 0 ? frequencies.length - 1 : above) - 1;
  const share = (frequency - frequencies[k]) / (frequencies[k + 1] - frequencies[k]);
  let [re, im, terms] = [1, 0, 1];
  for (const [gain, piece] of [
    [p, a],
    [d, b],
    [i, c],
  ] as const) {
    const [x, y] = [piece.re, piece.im].map((values) => gain * between(frequencies, values, k)(share));
    re += x;
    im += y;
    terms += Math.sqrt(x * x + y * y);
  }
  return Math.sqrt(re * re + im * im) < LEFT_OVER * terms;
}

const SLOPE_STEP = 1e-3; // share of a grid step over which the slope is taken

/**
 * dP/dgrowth where N, the P that each frequency needs, is real: with s = growth + jw and N analytic in s, N stays real
 * along growth |dN/dw|^2 / Im(dN/dw).
 */
function growthSlope(frequencies: Float64Array, needed: ComplexArray, frequency: number): number {
  const above = frequencies.findIndex((w) => w > frequency);
  const k = (above < 0 ? frequencies.length - 1 : above) - 1;
  const share = (frequency - frequencies[k]) / (frequencies[k + 1] - frequencies[k]);
  const slope = (values: Float64Array) => {
    const at = between(frequencies, values, k);
    return (at(share + SLOPE_STEP) - at(share - SLOPE_STEP)) / (2 * SLOPE_STEP * (frequencies[k + 1] - frequencies[k]));
  };
  const [re, im] = [slope(needed.re), slope(needed.im)];
  return (re * re + im * im) / im;
}

/**
 * The P intervals within the range in which the loop is stable, rising; where one ends at the range's own end, it may
 * go on. Every ultimate gain changes the number of unstable poles, so between two of them one test is enough.
 */
export function stableIntervals(pieces: LoopPieces, d: number, i: number, range: Range): Range[] {
  const edges = [range.from, ...pointsIn(pieces, d, i, neededP(pieces, d, i), range).map(({ p }) => p), range.to];
  const between = edges.slice(1).map((to, k) => ({ from: edges[k], to }));
  return between.filter(({ from, to }) => isStable(pieces, { p: 0.5 * (from + to), i, d }));
}

export interface BoundaryPoint extends Omit<AxisGains, "i"> {
  readonly frequency: number; // rad/s of the oscillation that stands there
}

/**
 * The curve in the P-D plane on which an undamped oscillation stands, frequency by frequency of the grid: two real
 * equations linear in P and D (parameter-plane method). Frequencies at which P and D act alike are left out; at half
 * the sampling rate the two equations are one, and the boundary is the straight line P a + D b = -1 - I c.
 */
export function boundaryCurve({ frequencies, a, b, c, closes }: LoopPieces, i: number): BoundaryPoint[] {
  const points: BoundaryPoint[] = [];
  const count = closes ? frequencies.length - 1 : frequencies.length;
  for (let k = 0; k < count; k++) {
    const determinant = a.re[k] * b.im[k] - a.im[k] * b.re[k];
    const [x, y] = [-1 - i * c.re[k], -i * c.im[k]];
    const p = (x * b.im[k] - y * b.re[k]) / determinant;
    const d = (y * a.re[k] - x * a.im[k]) / determinant;
    if (Number.isFinite(p) && Number.isFinite(d)) points.push({ p, d, frequency: frequencies[k] });
  }
  return points;
}
