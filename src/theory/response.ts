// Frequency response of a sampled linear system, solved frequency by frequency.
import type { Matrix } from "ml-matrix";
import { cos, sin } from "../base/elementary.js";
import { type ComplexArray, complexArray, sampled } from "./frequency.js";
import { oncePer, recentBy } from "./once.js";

/** out[row][column] = rows of (z I - A)^-1 B at z = e^(j w T) for each frequency w (rad/s) and period T (s). */
export function stateResponse(
  a: Matrix,
  b: Matrix,
  rows: readonly number[],
  frequencies: Float64Array,
  period: number,
): ComplexArray[][] {
  const out = rows.map(() => Array.from({ length: b.columns }, () => complexArray(frequencies.length)));
  const work = workspace(a, b);
  const z = onCircle(frequencies, period);
  const first = Math.min(...rows);
  for (let k = 0; k < frequencies.length; k++) {
    load(work, z.re[k], z.im[k]);
    eliminate(work, first);
    for (let r = 0; r < rows.length; r++) {
      const from = rows[r] * work.width + work.size;
      for (let column = 0; column < b.columns; column++) {
        const { re, im } = out[r][column];
        re[k] = work.re[from + column];
        im[k] = work.im[from + column];
      }
    }
  }
  return out;
}

/** e^(j w T) of each frequency. */
const onCircle = (frequencies: Float64Array, period: number): ComplexArray =>
  circlesOn(frequencies)(String(period), () => sampled(frequencies, (w) => [cos(w * period), sin(w * period)]));

const PERIODS = 2; // kept on each array of frequencies
const circlesOn = oncePer((_: Float64Array) => recentBy<ComplexArray>(PERIODS));

/** [z I - A | B], complex, row by row. */
interface Workspace {
  readonly size: number;
  readonly width: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** The same at z = 0. */
  readonly still: Float64Array;
}

function workspace(a: Matrix, b: Matrix): Workspace {
  const [size, width] = [a.rows, a.rows + b.columns];
  const still = new Float64Array(size * width);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) still[i * width + j] = -a.get(i, j);
    for (let j = size; j < width; j++) still[i * width + j] = b.get(i, j - size);
  }
  return { size, width, re: new Float64Array(size * width), im: new Float64Array(size * width), still };
}

function load({ size, width, re, im, still }: Workspace, zRe: number, zIm: number): void {
  re.set(still);
  im.fill(0);
  for (let at = 0; at < size * width; at += width + 1) {
    re[at] += zRe;
    im[at] = zIm;
  }
}

/** Gauss-Jordan with row pivoting; the right part of the rows from `first` on becomes the solution, others are left behind. */
function eliminate(work: Workspace, first: number): void {
  for (let k = 0; k < work.size; k++) {
    swapRows(work, k, pivotRow(work, k));
    divideRow(work, k);
    for (let i = Math.min(first, k + 1); i < work.size; i++) if (i !== k) subtractRow(work, i, k);
  }
}

function pivotRow({ size, width, re, im }: Workspace, k: number): number {
  let best = k;
  let most = -1;
  for (let i = k; i < size; i++) {
    const at = i * width + k;
    const magnitude = re[at] * re[at] + im[at] * im[at];
    if (magnitude > most) {
      most = magnitude;
      best = i;
    }
  }
  return best;
}

function swapRows({ width, re, im }: Workspace, i: number, k: number): void {
  if (i === k) return;
  for (const part of [re, im]) {
    for (let j = i; j < width; j++) {
      const swapped = part[i * width + j];
      part[i * width + j] = part[k * width + j];
      part[k * width + j] = swapped;
    }
  }
}

// The pivot's own column is not written: nobody reads it again.

function divideRow({ width, re, im }: Workspace, k: number): void {
  const at = k * width + k;
  const square = re[at] * re[at] + im[at] * im[at];
  const byRe = re[at] / square;
  const byIm = -im[at] / square;
  for (let j = at + 1; j < (k + 1) * width; j++) {
    const x = re[j];
    const y = im[j];
    re[j] = x * byRe - y * byIm;
    im[j] = x * byIm + y * byRe;
  }
}

function subtractRow({ width, re, im }: Workspace, i: number, k: number): void {
  const at = i * width + k;
  const timesRe = re[at];
  const timesIm = im[at];
  if (timesRe === 0 && timesIm === 0) return;
  const up = (k - i) * width;
  for (let j = at + 1; j < (i + 1) * width; j++) {
    const x = re[j + up];
    const y = im[j + up];
    re[j] -= x * timesRe - y * timesIm;
    im[j] -= x * timesIm + y * timesRe;
  }
}
