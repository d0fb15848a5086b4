// Maximum a posteriori: residuals in standard deviations beside scores that are standard normal before, by
// Levenberg-Marquardt; the covariance from the curvature at the end.
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { EigenvalueDecomposition, inverse, Matrix } from "ml-matrix";
import { at } from "../base/at.js";

/** Residuals of one kind, whose errors are multiplied together where they prove too small. */
export interface Group {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** Each for itself, with an error that is not to be judged by the others. */
  readonly single?: true;
}

export interface Likelihood {
  /** Number of scores. */
  readonly scores: number;
  readonly groups: readonly Group[];
  /** Residuals in standard deviations, without those of the scores themselves. */
  residuals(scores: Float64Array): Float64Array;
}

export interface Likeliest {
  readonly scores: Float64Array;
  readonly residuals: Float64Array;
  /** [residual][score] */
  readonly slopes: Matrix;
  /** By which the errors of each residual were multiplied. */
  readonly scale: Float64Array;
  /** Of the scores. */
  readonly covariance: Matrix;
}

/** In standard deviations of a score: slopes by differences over it. */
const STEP = 1e-3;
/** Scores farther out than this are not looked at. */
const FARTHEST = 6;
/** Searches at most, steps of the library in each, and the share of the sum of squares that is no progress. */
const SEARCHES = 6;
const STEPS = 4;
const NO_PROGRESS = 1e-4;

/** The likeliest scores, from a start, with the errors multiplied by `scale`. */
export function likeliest(likelihood: Likelihood, scale: Float64Array, start: Float64Array): Likeliest {
  let found = curvatureAt(likelihood, scale, start);
  for (let search = 0; search < SEARCHES; search++) {
    const next = searched(likelihood, found);
    const progress = sumOfSquares(found.scores, found.residuals, scale) - next.error;
    if (!(progress > 0)) return found;
    found = curvatureAt(likelihood, scale, next.scores);
    if (progress < NO_PROGRESS * (1 + next.error)) return found;
  }
  return found;
}

const sumOfSquares = (scores: Float64Array, residuals: Float64Array, scale: Float64Array): number =>
  scores.reduce((sum, score) => sum + score * score, 0) +
  residuals.reduce((sum, r, k) => sum + (r / at(scale, k)) ** 2, 0);

/** Directions in which a measurement tells less than this, in the prior's information, move by no more than a thirtieth. */
const TELLS_NOTHING = 1e-3;

/** Searched along the directions alone in which the measurement tells something; along the others the prior's middle stays. */
function searched(
  likelihood: Likelihood,
  { scores, covariance, scale }: Likeliest,
): { readonly scores: Float64Array; readonly error: number } {
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(covariance, { assumeSymmetric: true });
  const telling = realEigenvalues.flatMap((variance, k) =>
    1 / variance - 1 > TELLS_NOTHING ? [eigenvectorMatrix.getColumn(k)] : [],
  );
  const start = telling.map((direction) => direction.reduce((sum, v, j) => sum + v * at(scores, j), 0));
  const scoresAt = (places: readonly number[]) => {
    const out = new Float64Array(scores.length);
    for (const [k, direction] of telling.entries())
      for (const [j, v] of direction.entries()) out[j] = at(out, j) + v * at(places, k);
    return out;
  };
  const indices = Array.from({ length: scale.length + telling.length }, (_, k) => k);
  if (telling.length === 0) return { scores, error: Number.POSITIVE_INFINITY };
  const { parameterValues, parameterError } = levenbergMarquardt(
    { x: indices, y: indices.map(() => 0) },
    (places) => {
      const residuals = likelihood.residuals(scoresAt(places)).map((r, k) => r / at(scale, k));
      return (k) => (k < residuals.length ? at(residuals, k) : at(places, k - residuals.length));
    },
    {
      initialValues: start,
      minValues: start.map(() => -FARTHEST),
      maxValues: start.map(() => FARTHEST),
      gradientDifference: STEP,
      maxIterations: STEPS,
      errorTolerance: 0,
    },
  );
  return { scores: scoresAt(parameterValues), error: parameterError };
}

/** What the curvature says at these scores. */
function curvatureAt(likelihood: Likelihood, scale: Float64Array, scores: Float64Array): Likeliest {
  const residuals = likelihood.residuals(scores);
  const slopes = Matrix.zeros(residuals.length, scores.length);
  for (let column = 0; column < scores.length; column++) {
    const moved = scores.slice();
    moved[column] = at(scores, column) + STEP;
    const beside = likelihood.residuals(moved);
    for (let row = 0; row < residuals.length; row++)
      slopes.set(row, column, (at(beside, row) - at(residuals, row)) / STEP);
  }
  return { scores, residuals, slopes, scale, covariance: covarianceOf(slopes, scale) };
}

/** (1 + sum of slopes squared over scale squared)^-1 */
function covarianceOf(slopes: Matrix, scale: Float64Array): Matrix {
  const weighted = Matrix.zeros(slopes.rows, slopes.columns);
  for (let row = 0; row < slopes.rows; row++)
    for (let column = 0; column < slopes.columns; column++)
      weighted.set(row, column, slopes.get(row, column) / at(scale, row));
  const covariance = inverse(weighted.transpose().mmul(weighted).add(Matrix.eye(slopes.columns)));
  return Matrix.add(covariance, covariance.transpose()).mul(0.5);
}
