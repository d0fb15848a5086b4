// Regression by instruments with errors that know of autocorrelation: sums are kept block by block, and each block is left
// out in turn (a delete-one-block jackknife: H.R. Kunsch, "The jackknife and the bootstrap for general stationary
// observations", Annals of Statistics 17 (1989); from memory).
//
// Where a regressor was measured with an error of its own, least squares reads its coefficient low. Instruments are columns
// that go with the regressors and know nothing of that error (two-stage least squares: J.D. Angrist and J.-S. Pischke, Mostly
// Harmless Econometrics, 2009, 4.1; from memory).
import { CholeskyDecomposition, Matrix, pseudoInverse, solve } from "ml-matrix";
import { at, numberAt } from "../base/at.js";

/** Rows of one block: column by column. */
export interface Block {
  readonly regressors: readonly Float64Array[];
  /** Empty for plain least squares. */
  readonly instruments: readonly Float64Array[];
  readonly observed: Float64Array;
}

export interface BlockFit {
  readonly coefficients: readonly number[];
  /** Standard error of each, over the blocks. */
  readonly errors: readonly number[];
  readonly blocks: number;
}

/** Share of the largest below which a direction of the columns counts as none. */
const DEPENDENT = 1e-10;

/** Null with fewer than two blocks, or where the rows do not fix every coefficient. Columns must have their means taken out. */
export function blockRegression(blocks: readonly Block[]): BlockFit | null {
  if (blocks.length < 2) return null;
  const { each, whole, sizes, count } = summed(blocks);
  const normal = normalOf(whole, count);
  const solution = solved(normal);
  if (solution === null) return null;
  const without = each.map((sum) => solved(normalOf(Matrix.sub(whole, scaled(sum, sizes)), count)));
  if (without.some((one) => one === null)) return null;
  const n = without.length;
  const last = at(sizes, sizes.length - 1);
  const unscaled = (values: readonly number[]) => values.map((value, k) => (value * last) / at(sizes, k));
  const errors = solution.map((_, k) => {
    const values = without.map((one) => at(one ?? [], k));
    const mean = values.reduce((sum, value) => sum + value, 0) / n;
    return Math.sqrt(((n - 1) / n) * values.reduce((sum, value) => sum + (value - mean) ** 2, 0));
  });
  return { coefficients: unscaled(solution), errors: unscaled(errors), blocks: n };
}

/**
 * Share of the observed column's square that the regressors leave over; with instruments, of what of it goes along with them
 * (Sargan's statistic over the number of rows). Null where the rows do not fix every coefficient.
 */
export function leftOver(blocks: readonly Block[]): number | null {
  if (blocks.length === 0) return null;
  const { whole, count } = summed(blocks);
  const normal = normalOf(whole, count);
  const solution = solved(normal);
  return solution === null ? null : left(normal, solution);
}

/** Cross products of each block, and of all of them with every column at size one. */
function summed(blocks: readonly Block[]) {
  const each = blocks.map(crossProducts);
  const total = each.reduce((sum, one) => Matrix.add(sum, one));
  const sizes = total.diagonal().map((square) => (square > 0 ? Math.sqrt(square) : 1));
  return { each, whole: scaled(total, sizes), sizes, count: at(blocks, 0).regressors.length };
}

const scaled = (sum: Matrix, sizes: readonly number[]): Matrix =>
  new Matrix(sum.to2DArray().map((row, i) => row.map((value, j) => value / (at(sizes, i) * at(sizes, j)))));

/** Of regressors, instruments and the observed column, in this order. */
function crossProducts({ regressors, instruments, observed }: Block): Matrix {
  const columns = [...regressors, ...instruments, observed];
  const sums = Matrix.zeros(columns.length, columns.length);
  for (const [i, one] of columns.entries()) {
    for (let j = i; j < columns.length; j++) {
      const other = at(columns, j);
      let sum = 0;
      for (let k = 0; k < one.length; k++) sum += numberAt(one, k) * numberAt(other, k);
      sums.set(i, j, sum).set(j, i, sum);
    }
  }
  return sums;
}

/** Products of the regressors with each other and with the observed column, and the latter's own, as far as they go along with the instruments. */
interface Normal {
  readonly square: Matrix;
  readonly toObserved: Matrix;
  readonly observed: number;
}

function normalOf(sums: Matrix, count: number): Normal {
  const last = sums.rows - 1;
  if (last === count)
    return {
      square: sums.subMatrix(0, count - 1, 0, count - 1),
      toObserved: sums.subMatrix(0, count - 1, last, last),
      observed: sums.get(last, last),
    };
  const across = sums.subMatrix(0, count - 1, count, last - 1);
  const observed = sums.subMatrix(count, last - 1, last, last);
  const inverse = pseudoInverse(sums.subMatrix(count, last - 1, count, last - 1), DEPENDENT);
  const through = across.mmul(inverse);
  return {
    square: through.mmul(across.transpose()),
    toObserved: through.mmul(observed),
    observed: observed.transpose().mmul(inverse).mmul(observed).get(0, 0),
  };
}

/** Coefficients; null where the rows do not fix all of them. */
const solved = ({ square, toObserved }: Normal): number[] | null =>
  isFixed(square) ? solve(square, toObserved).getColumn(0) : null;

/** Whether no column follows from the others: by the squared sine between each and those before it. */
function isFixed(square: Matrix): boolean {
  const sizes = square.diagonal();
  if (sizes.some((size) => !(size > DEPENDENT))) return false;
  const correlations = square.clone();
  for (const [i, one] of sizes.entries()) correlations.mulRow(i, 1 / Math.sqrt(one)).mulColumn(i, 1 / Math.sqrt(one));
  // products in either order differ by their rounding
  const symmetric = Matrix.add(correlations, correlations.transpose()).mul(0.5);
  const root = new CholeskyDecomposition(symmetric);
  return root.isPositiveDefinite() && root.lowerTriangularMatrix.diagonal().every((pivot) => pivot * pivot > DEPENDENT);
}

function left({ square, toObserved, observed }: Normal, solution: readonly number[]): number {
  let rest = observed;
  for (const [i, one] of solution.entries()) {
    rest -= 2 * one * toObserved.get(i, 0);
    for (const [j, other] of solution.entries()) rest += one * other * square.get(i, j);
  }
  return rest / observed;
}
