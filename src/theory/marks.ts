// Where the open loop of many sets of gains passes the real axis and the unit circle, and what margins that leaves: one pass
// over the frequencies for several sets at once, straight lines between them.
import type { AxisGains } from "../airframe/airframe.js";
import * as m from "./lane-memory.js";
import { LANES, type LanePieces, lanePlaces, type MarkLanes, markPlainly, translatedMarks } from "./lanes.js";
import type { LoopPieces } from "./pieces.js";

/** Steps, each from the frequency of that number to the next, in which a response passes a line; rising. */
export interface Marks {
  readonly axis: readonly number[];
  readonly circle: readonly number[];
}

/** Margins by straight lines between frequencies. */
export interface RoughMargins {
  /** Poles of the closed loop outside the unit circle. */
  readonly unstable: number;
  /** Size of the response where it crosses the negative real axis: the largest up to 1 (0: none) and the least above (infinite: none). */
  readonly below: number;
  readonly above: number;
  /** Real part where it crosses the unit circle, the least; infinite where it does not. */
  readonly nearest: number;
  /** How far the response moves within a step read here, over its size, squared: the lines are off by an eighth of that. */
  readonly bend: number;
}

let chosen: MarkLanes | null = null;

const markLanes = (): MarkLanes => {
  chosen ??= translatedMarks() ?? markPlainly;
  return chosen;
};

/** The marks of every set of gains. On the last step of a loop that `closes` those of the axis mean nothing: it is real there anyway. */
export function marksOf(pieces: LoopPieces, gains: readonly AxisGains[], mark: MarkLanes = markLanes()): Marks[] {
  const packed = packedPieces(pieces);
  const lanes = new Float64Array(lanePlaces(packed) * LANES);
  const found: Marks[] = [];
  for (let from = 0; from < gains.length; from += LANES) {
    const count = Math.min(LANES, gains.length - from);
    for (let lane = 0; lane < LANES; lane++) {
      const { p, d, i } = gains[from + Math.min(lane, count - 1)];
      [p, d, i].forEach((factor, n) => {
        lanes[(m.FACTORS + n) * LANES + lane] = factor;
      });
    }
    mark(packed, lanes);
    for (let lane = 0; lane < count; lane++)
      found.push({ axis: marked(lanes, packed, lane, 0), circle: marked(lanes, packed, lane, 1) });
  }
  return found;
}

/** In the order in which openLoop sums them. */
function packedPieces({ frequencies: { length }, a, b, c }: LoopPieces): LanePieces {
  const parts = [a, b, c];
  const count = parts.length;
  const blocks = Math.ceil((length - 1) / m.BLOCK);
  const values = new Float64Array(2 * count * (m.BLOCK * blocks + 1));
  for (let k = 0, to = 0; to < values.length; k++) {
    const at = Math.min(k, length - 1);
    for (const { re, im } of parts) {
      values[to++] = re[at];
      values[to++] = im[at];
    }
  }
  return { count, blocks, values };
}

function marked(lanes: Float64Array, { blocks }: LanePieces, lane: number, kind: 0 | 1): number[] {
  const steps: number[] = [];
  for (let block = 0; block < blocks; block++) {
    let bits = lanes[(m.MARKS + 2 * block + kind) * LANES + lane] | 0;
    while (bits !== 0) {
      const place = Math.clz32(bits);
      steps.push(m.BLOCK * block + place);
      bits &= ~(0x80000000 >>> place);
    }
  }
  return steps;
}

/**
 * Of every set of gains. Errors are those of the grid: on the coarse one below 0.05 dB for a craft whose loop is late by a
 * millisecond or so, and 0.3 degrees of phase where the margin is 45; where it is small, several times that.
 */
export function roughMargins(pieces: LoopPieces, gains: readonly AxisGains[]): RoughMargins[] {
  const marks = marksOf(pieces, gains);
  return gains.map((one, at) => roughFrom(pieces, one, marks[at]));
}

function roughFrom(pieces: LoopPieces, { p, i, d }: AxisGains, { axis, circle }: Marks): RoughMargins {
  const { a, b, c, closes } = pieces;
  const last = a.re.length - 1;
  const reAt = (k: number) => p * a.re[k] + d * b.re[k] + i * c.re[k];
  const imAt = (k: number) => p * a.im[k] + d * b.im[k] + i * c.im[k];
  let unstable = pieces.unstable + (reAt(0) < 0 && imAt(0) > 0 ? 2 : 0);
  let [below, above, nearest, bend] = [0, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0];
  const crossed = (size: number, turns: number) => {
    if (size > 1) {
      above = Math.min(above, size);
      unstable += turns;
    } else below = Math.max(below, size);
  };
  for (const k of axis) {
    if (closes && k === last - 1) continue;
    const [re, im, nextRe, nextIm] = [reAt(k), imAt(k), reAt(k + 1), imAt(k + 1)];
    const share = im / (im - nextIm);
    const size = -(re + share * (nextRe - re));
    if (size > 0) bend = Math.max(bend, moved(re, im, nextRe, nextIm));
    crossed(size, nextIm >= 0 ? 2 : -2);
  }
  // Real at half the sampling rate, where it meets its mirror image.
  if (closes) crossed(-reAt(last), imAt(last - 1) < 0 ? 1 : -1);
  for (const k of circle) {
    const end = k + 1;
    const [re, nextRe, im] = [reAt(k), reAt(end), imAt(k)];
    const nextIm = closes && end === last ? 0 : imAt(end);
    const before = re * re + im * im;
    const share = (1 - before) / (nextRe * nextRe + nextIm * nextIm - before);
    nearest = Math.min(nearest, re + share * (nextRe - re));
    bend = Math.max(bend, moved(re, im, nextRe, nextIm));
  }
  return { unstable, below, above, nearest, bend };
}

const moved = (re: number, im: number, nextRe: number, nextIm: number): number =>
  ((nextRe - re) * (nextRe - re) + (nextIm - im) * (nextIm - im)) / (re * re + im * im);
