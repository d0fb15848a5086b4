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
  /** Share of the observed column's square that is left over. */
  readonly left: number;
}

/** Share of the largest below which a direction of the columns counts as none. */
const DEPENDENT = 1e-10;

/** Null with fewer than two blocks, or where the rows do not fix every coefficient. Columns must have their means taken out. */
export function blockRegression(blocks: readonly Block[]): BlockFit | null {
  const sums = blocks.map(crossProducts);
  const [first] = sums;
  const [block] = blocks;
  if (first === undefined || block === undefined || sums.length < 2) return null;
  const total = sums.reduce((sum, one) => Matrix.add(sum, one));
  const sizes = total.diagonal().map((square) => (square > 0 ? Math.sqrt(square) : 1));
  const scaled = (sum: Matrix) => Matrix.from1DArray(sum.rows, sum.columns, scaledEntries(sum, sizes));
  const count = block.regressors.length;
  const whole = scaled(total);
  const solution = solved(whole, count);
  if (solution === null) return null;
  const without = sums.map((sum) => solved(Matrix.sub(whole, scaled(sum)), count));
  if (without.some((one) => one === null)) return null;
  const n = without.length;
  const last = at(sizes, sizes.length - 1);
  const unscaled = (values: readonly number[]) => values.map((value, k) => (value * last) / at(sizes, k));
  const errors = solution.map((_, k) => {
    const values = without.map((one) => at(one ?? [], k));
    const mean = values.reduce((sum, value) => sum + value, 0) / n;
    return Math.sqrt(((n - 1) / n) * values.reduce((sum, value) => sum + (value - mean) ** 2, 0));
  });
  return { coefficients: unscaled(solution), errors: unscaled(errors), blocks: n, left: leftOver(whole, solution) };
}

const scaledEntries = (sum: Matrix, sizes: readonly number[]): number[] =>
  sum.to2DArray().flatMap((row, i) => row.map((value, j) => value / at(sizes, i) / at(sizes, j)));

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

/** Coefficients of so many regressors from cross products; null where they are not all fixed. */
function solved(sums: Matrix, count: number): number[] | null {
  const last = sums.rows - 1;
  const ofObserved = sums.subMatrix(0, count - 1, last, last);
  let square = sums.subMatrix(0, count - 1, 0, count - 1);
  let toObserved = ofObserved;
  if (last > count) {
    const across = sums.subMatrix(0, count - 1, count, last - 1);
    const through = across.mmul(pseudoInverse(sums.subMatrix(count, last - 1, count, last - 1), DEPENDENT));
    square = through.mmul(across.transpose());
    toObserved = through.mmul(sums.subMatrix(count, last - 1, last, last));
  }
  return isFixed(square) ? solve(square, toObserved).getColumn(0) : null;
}

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

function leftOver(sums: Matrix, solution: readonly number[]): number {
  const last = sums.rows - 1;
  let left = sums.get(last, last);
  for (const [i, one] of solution.entries()) {
    left -= 2 * one * sums.get(i, last);
    for (const [j, other] of solution.entries()) left += one * other * sums.get(i, j);
  }
  return left / sums.get(last, last);
}
