// Scores after the measurement: where they are likeliest and how far they may be off, with errors widened where residuals,
// windows or the prior disagree with them.
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { at } from "../base/at.js";
import { type Group, type Likeliest, type Likelihood, likeliest } from "./least-squares.js";
import { errorsTimes, type Misfit, misfitOf } from "./misfit.js";

export interface Posterior {
  /** Independent standard normal before. */
  readonly scores: Float64Array;
  readonly covariance: Matrix;
  /** Of each group of the likelihood. */
  readonly misfits: readonly Misfit[];
  /** How far the likeliest scores lie out, per number the measurement tells: 1 is what the spreads promise. */
  readonly surprise: number;
  /** The likeliest scores with their slopes, before anything was widened for scatter or surprise. */
  readonly found: Likeliest;
}

/** Residuals of one group as each of several parts of the log gives them. */
export interface Parts {
  readonly group: Group;
  readonly residuals: readonly Float64Array[];
}

/** Errors depend on the fit and the fit on the errors; they settle in a few rounds. */
const ROUNDS = 3;
/** A change of errors, as a share, that moves nothing any more. */
const SETTLED = 0.05;

/** `partsAt` is asked for the residuals of parts at the likeliest scores. */
export function posteriorOf(likelihood: Likelihood, partsAt: (scores: Float64Array) => readonly Parts[]): Posterior {
  const { scores: count, groups } = likelihood;
  const length = groups.reduce((most, { to }) => Math.max(most, to), 0);
  let scale = new Float64Array(length).fill(1);
  let found = likeliest(likelihood, scale, new Float64Array(count));
  let misfits = groups.map((group) => misfitOf(found, group));
  for (let round = 0; round < ROUNDS; round++) {
    const next = new Float64Array(length).fill(1);
    for (const [k, { from, to }] of groups.entries()) next.fill(errorsTimes(at(misfits, k)), from, to);
    if (next.every((times, k) => Math.abs(times / at(scale, k) - 1) < SETTLED)) break;
    scale = next;
    found = likeliest(likelihood, scale, found.scores);
    misfits = groups.map((group) => misfitOf(found, group));
  }
  const { covariance, surprise } = widened(found, partsAt(found.scores));
  return { scores: found.scores, covariance, misfits, surprise, found };
}

/** Information below this, in the prior's own, tells nothing: such a direction says nothing about surprise. */
const TELLS = 0.5;
/** Chance alone seldom makes more of it: about 1 in 200 with one direction, fewer with more. */
const MOST_SURPRISE = 8;

/**
 * Along each direction in which the measurement tells something: the variance at least the scatter of the parts, and all of
 * them wider where the scores lie where the prior has hardly any. Never wider than before.
 */
function widened(found: Likeliest, parts: readonly Parts[]): Pick<Posterior, "covariance" | "surprise"> {
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(found.covariance, {
    assumeSymmetric: true,
  });
  const moves = parts.map((one) => movesOf(found, one));
  const directions = realEigenvalues.map((variance, k) => {
    const direction = eigenvectorMatrix.getColumn(k);
    const along = (scores: ArrayLike<number>) => direction.reduce((sum, v, j) => sum + v * at(scores, j), 0);
    return {
      direction,
      variance,
      place: along(found.scores),
      scatter: moves.map((some) => scatterOf(some.map(along))),
    };
  });
  const telling = directions.filter(({ variance }) => 1 / variance - 1 > TELLS);
  // Before anything is measured the likeliest score along a direction has the variance 1 - (what is left of it).
  const surprise =
    telling.reduce((sum, { place, variance }) => sum + (place * place) / (1 - variance), 0) /
    Math.max(1, telling.length);
  const factor = Math.max(1, surprise / MOST_SURPRISE);
  const covariance = Matrix.zeros(found.covariance.rows, found.covariance.columns);
  for (const { direction, variance, scatter } of directions) {
    const wide = Math.min(
      1,
      factor *
        Math.max(
          variance,
          scatter.reduce((sum, one) => sum + one, 0),
        ),
    );
    const column = Matrix.columnVector(direction);
    covariance.add(column.mmul(column.transpose()).mul(wide));
  }
  return { covariance, surprise };
}

/** By how much each part alone would move the likeliest scores, to first order. */
function movesOf({ slopes, scale, covariance, residuals }: Likeliest, { group, residuals: parts }: Parts): number[][] {
  const { from, to } = group;
  const fitted = slopes.subMatrix(from, to - 1, 0, slopes.columns - 1).transpose();
  return parts.map((part) => {
    const change = Array.from(part, (r, k) => (r - at(residuals, from + k)) / at(scale, from + k) ** 2);
    return covariance.mmul(fitted.mmul(Matrix.columnVector(change))).getColumn(0);
  });
}

/** Variance of the mean of as many. */
function scatterOf(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return square / (values.length * (values.length - 1));
}
