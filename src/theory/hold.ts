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
  const norm = Math.max(...matrix.to2DArray().map((row) => row.reduce((sum, v) => sum + Math.abs(v), 0)));
  let halvings = 0;
  for (let left = norm; left > 0.5; left /= 2) halvings++;
  const scaled = Matrix.mul(matrix, 1 / 2 ** halvings);
  let term = Matrix.eye(matrix.rows);
  let sum = term.clone();
  for (let n = 1; n <= 18; n++) {
    term = term.mmul(scaled).mul(1 / n);
    sum = sum.add(term);
  }
  for (let n = 0; n < halvings; n++) sum = sum.mmul(sum);
  return sum;
}
