// Frequency response of a sampled linear system, solved frequency by frequency.
import type { Matrix } from "ml-matrix";
import { cos, sin } from "../base/elementary.js";
import { type ComplexArray, complexArray } from "./frequency.js";

/** out[row][column] = rows of (z I - A)^-1 B at z = e^(j w T) for each frequency w (rad/s) and period T (s). */
export function stateResponse(
  a: Matrix,
  b: Matrix,
  rows: readonly number[],
  frequencies: Float64Array,
  period: number,
): ComplexArray[][] {
  const out = rows.map(() => Array.from({ length: b.columns }, () => complexArray(frequencies.length)));
  const work = workspace(a.rows, b.columns);
  frequencies.forEach((frequency, k) => {
    load(work, a, b, cos(frequency * period), sin(frequency * period));
    eliminate(work);
    rows.forEach((row, r) => {
      for (let column = 0; column < b.columns; column++) {
        const at = row * work.width + work.size + column;
        out[r][column].re[k] = work.re[at];
        out[r][column].im[k] = work.im[at];
      }
    });
  });
  return out;
}

/** [z I - A | B], complex, row by row. */
interface Workspace {
  readonly size: number;
  readonly width: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

function workspace(size: number, columns: number): Workspace {
  const length = size * (size + columns);
  return { size, width: size + columns, re: new Float64Array(length), im: new Float64Array(length) };
}

function load({ size, width, re, im }: Workspace, a: Matrix, b: Matrix, zRe: number, zIm: number): void {
  im.fill(0);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) re[i * width + j] = -a.get(i, j);
    for (let j = size; j < width; j++) re[i * width + j] = b.get(i, j - size);
    re[i * width + i] += zRe;
    im[i * width + i] = zIm;
  }
}

/** Gauss-Jordan with row pivoting; the right part becomes the solution. */
function eliminate(work: Workspace): void {
  for (let k = 0; k < work.size; k++) {
    swapRows(work, k, pivotRow(work, k));
    divideRow(work, k);
    for (let i = 0; i < work.size; i++) if (i !== k) subtractRow(work, i, k);
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
    for (let j = 0; j < width; j++) {
      const swapped = part[i * width + j];
      part[i * width + j] = part[k * width + j];
      part[k * width + j] = swapped;
    }
  }
}

function divideRow({ width, re, im }: Workspace, k: number): void {
  const at = k * width + k;
  const square = re[at] * re[at] + im[at] * im[at];
  const byRe = re[at] / square;
  const byIm = -im[at] / square;
  for (let j = k; j < width; j++) {
    const x = re[k * width + j];
    const y = im[k * width + j];
    re[k * width + j] = x * byRe - y * byIm;
    im[k * width + j] = x * byIm + y * byRe;
  }
}

function subtractRow({ width, re, im }: Workspace, i: number, k: number): void {
  const timesRe = re[i * width + k];
  const timesIm = im[i * width + k];
  if (timesRe === 0 && timesIm === 0) return;
  for (let j = k; j < width; j++) {
    const x = re[k * width + j];
    const y = im[k * width + j];
    re[i * width + j] -= x * timesRe - y * timesIm;
    im[i * width + j] -= x * timesIm + y * timesRe;
  }
}
