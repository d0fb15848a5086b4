// Linear least squares with the intervals it leaves: of a coefficient, and of a new observation.
import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { studentQuantile } from "../base/student.js";

export interface Fit {
  readonly coefficients: readonly number[];
  /** Standard error of each coefficient. */
  readonly errors: readonly number[];
  /** Observations less coefficients. */
  readonly freedom: number;
  /** The value at a new row, and the half width in which 95 of 100 new observations there lie. */
  predict(row: readonly number[]): { readonly value: number; readonly half: number };
}

/**
 * Least squares of `observed` on the columns of `rows`. Null where the rows do not fix every coefficient, or leave fewer
 * than two degrees of freedom to tell an error from.
 */
export function leastSquares(rows: readonly (readonly number[])[], observed: readonly number[]): Fit | null {
  const [first] = rows;
  if (first === undefined || rows.length - first.length < 2) return null;
  // columns of one size, so that the test of independence knows no units
  const sizes = first.map((_, column) => Math.sqrt(rows.reduce((sum, row) => sum + (row[column] ?? 0) ** 2, 0)));
  if (sizes.some((size) => !(size > 0))) return null;
  const scaled = (row: readonly number[]): number[] => row.map((value, column) => value / (sizes[column] ?? 1));
  const design = new Matrix(rows.map(scaled));
  const square = design.transpose().mmul(design);
  const root = new CholeskyDecomposition(square);
  if (!root.isPositiveDefinite() || root.lowerTriangularMatrix.diagonal().some((pivot) => pivot < DEPENDENT))
    return null;
  const inverse = root.solve(Matrix.eye(first.length));
  const values = inverse.mmul(design.transpose().mmul(Matrix.columnVector([...observed])));
  const left = Matrix.sub(Matrix.columnVector([...observed]), design.mmul(values));
  const freedom = rows.length - first.length;
  const variance = left.dot(left) / freedom;
  const spreadAt = (row: Matrix): number => row.mmul(inverse).mmul(row.transpose()).get(0, 0);
  return {
    coefficients: sizes.map((size, column) => values.get(column, 0) / size),
    errors: sizes.map((size, column) => Math.sqrt(variance * inverse.get(column, column)) / size),
    freedom,
    predict: (row) => {
      const at = new Matrix([scaled(row)]);
      const half = studentQuantile(freedom) * Math.sqrt(variance * (1 + spreadAt(at)));
      return { value: at.mmul(values).get(0, 0), half };
    },
  };
}

/** Sine of the angle below which two columns count as the same. */
const DEPENDENT = 1e-3;
