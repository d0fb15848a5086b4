// The nearest matrix of correlations that numbers can have: N.J. Higham, "Computing the nearest correlation matrix", IMA
// Journal of Numerical Analysis 22 (2002) 329-343, algorithm 3.3: by turns the nearest without a negative eigenvalue and the
// nearest with ones on its diagonal, the former with Dykstra's correction.
import { EigenvalueDecomposition, Matrix } from "ml-matrix";

/** Least eigenvalue: leaves a factor, and of two numbers that always go together a ratio known to 5e-5 of their spreads. */
const LEAST = 1e-9;
const ROUNDS = 300;
const SETTLED = 1e-7;

/** Of a symmetric matrix with ones on its diagonal, the nearest in the sum of squares. */
export function nearestCorrelations(declared: Matrix): Matrix {
  let found = declared;
  let correction = Matrix.zeros(declared.rows, declared.rows);
  for (let round = 0; round < ROUNDS; round++) {
    const corrected = Matrix.sub(found, correction);
    const lifted = withoutNegative(corrected);
    correction = Matrix.sub(lifted, corrected);
    const next = withOnes(lifted);
    const moved = largestDifference(next, found);
    found = next;
    if (moved < SETTLED) break;
  }
  return scaled(withoutNegative(found));
}

/** The largest difference between two entries in the same place. */
export function largestDifference(one: Matrix, other: Matrix): number {
  return Matrix.sub(one, other).abs().max();
}

function withoutNegative(matrix: Matrix): Matrix {
  const { eigenvectorMatrix: vectors, realEigenvalues } = new EigenvalueDecomposition(matrix, {
    assumeSymmetric: true,
  });
  const values = realEigenvalues.map((value) => Math.max(value, LEAST));
  return symmetric(vectors.mmul(Matrix.diag(values)).mmul(vectors.transpose()));
}

/** To the last bit, as it must be to have a factor. */
const symmetric = (matrix: Matrix): Matrix => Matrix.add(matrix, matrix.transpose()).mul(0.5);

function withOnes(matrix: Matrix): Matrix {
  const ones = matrix.clone();
  for (let k = 0; k < ones.rows; k++) ones.set(k, k, 1);
  return ones;
}

function scaled(matrix: Matrix): Matrix {
  const roots = matrix.diagonal().map(Math.sqrt);
  const rows = roots.map((row, i) => roots.map((column, j) => (i === j ? 1 : matrix.get(i, j) / (row * column))));
  return new Matrix(rows);
}
