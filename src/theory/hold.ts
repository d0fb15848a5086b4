// A linear plant whose input stands still over each control period: x[k+1] = Ad x[k] + Bd u[k], exactly; or changes
// once within it: x[k+1] = Ad x[k] + Bo older[k] + Bn newer[k] (Astrom and Wittenmark, Computer-Controlled Systems, on
// sampling systems with a delay; from memory).
import { Matrix } from "ml-matrix";
import type { LinearPlant } from "./linear.js";

/** Zero-order hold over `period` (s), by the exponential of [A B; 0 0]; exact to rounding. */
export function zeroOrderHold({ a, b }: LinearPlant, period: number): LinearPlant {
  const states = a.rows;
  const size = states + b.columns;
  const joined = Matrix.zeros(size, size);
  joined.setSubMatrix(a, 0, 0).setSubMatrix(b, 0, states);
  const grown = exponential(joined.mul(period));
  return {
    a: grown.subMatrix(0, states - 1, 0, states - 1),
    b: grown.subMatrix(0, states - 1, states, size - 1),
  };
}

/** One period whose input takes two values: `b` for the one that acts first, `newer` for the one after it, or null where there is none. */
export interface HeldPlant extends LinearPlant {
  readonly newer: Matrix | null;
}

/** Zero-order hold over `period` (s) whose last `newerShare` is under the newer input; exact to rounding. */
export function holdOfTwo(plant: LinearPlant, period: number, newerShare: number): HeldPlant {
  if (newerShare === 0) return { ...zeroOrderHold(plant, period), newer: null };
  const first = zeroOrderHold(plant, (1 - newerShare) * period);
  const last = zeroOrderHold(plant, newerShare * period);
  return { a: last.a.mmul(first.a), b: last.a.mmul(first.b), newer: last.b };
}

/** Scaling and squaring of the Taylor series: with a norm under 1/2, 18 terms leave less than 1e-21. */
function exponential(matrix: Matrix): Matrix {
  const size = matrix.rows;
  const norm = Math.max(...matrix.to2DArray().map((row) => row.reduce((sum, v) => sum + Math.abs(v), 0)));
  let halvings = 0;
  for (let left = norm; left > 0.5; left /= 2) halvings++;
  const scaled = new Float64Array(size * size);
  for (let k = 0; k < scaled.length; k++) scaled[k] = matrix.get(Math.floor(k / size), k % size) / 2 ** halvings;
  let [term, sum, room] = [scaled.slice(), scaled.slice(), new Float64Array(size * size)];
  for (let k = 0; k < sum.length; k += size + 1) sum[k] += 1;
  for (let n = 2; n <= 18; n++) {
    multiply(term, scaled, 1 / n, size, room);
    [term, room] = [room, term];
    for (let k = 0; k < sum.length; k++) sum[k] += term[k];
  }
  for (let n = 0; n < halvings; n++) {
    multiply(sum, sum, 1, size, room);
    [sum, room] = [room, sum];
  }
  return Matrix.from1DArray(size, size, sum);
}

/**
 * Writes a b times `factor` into `out`, all square and row by row. An exponential takes some twenty of them; the library's products
 * take four times as long.
 */
function multiply(a: Float64Array, b: Float64Array, factor: number, size: number, out: Float64Array): void {
  for (let row = 0; row < out.length; row += size) {
    for (let column = 0; column < size; column++) {
      let sum = 0;
      for (let k = 0, at = column; k < size; k++, at += size) sum += a[row + k] * b[at];
      out[row + column] = sum * factor;
    }
  }
}
