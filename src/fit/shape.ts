// The shape K e^(-Ls) / (s (T s + 1)) of an axis: authority K, lag T, delay L. Model and craft are compared in it.

import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { inverse, Matrix } from "ml-matrix";
import { at, numberAt } from "../base/at.js";
import { atan2, cos, exp, ln, sin } from "../base/elementary.js";
import { COVERAGE } from "../base/spread.js";
import type { Estimated, FittedShape } from "./format.js";
import type { Band } from "./measured-response.js";
import type { ResponseEstimate } from "./response-estimate.js";

/** A measured response, or a model's on the same frequencies with the same errors, so that both are weighted alike. */
export type ErringResponse = Pick<ResponseEstimate, "frequencies" | "value" | "error">;

export interface ShapeFit extends FittedShape {
  /** Chi square over degrees of freedom; above 1 the intervals were widened by its root. */
  readonly misfit: number;
  /** Root of the weighted mean square of what is left, as a share of the response. */
  readonly residual: number;
  /** Frequencies in it. */
  readonly lines: number;
}

/** Digits that results keep: fewer than an engine's own last bits can reach through the library's squares. */
const DIGITS = 9;
const LEAST_LINES = 6;
/** s: the unit of the delay among the parameters, so that all three are of size one. */
const DELAY_UNIT = 0.01;

/** Of an interval's half in logarithms: beyond a hundredfold nothing was told. */
const MOST = ln(100);

type Parameters = readonly [lnAuthorityOverLag: number, lnLag: number, delay: number];

/** The band (rad/s) that small craft's axes have this shape in. */
export const SHAPE_BAND: Band = { lowest: 1.5 * 2 * Math.PI, highest: 30 * 2 * Math.PI };

/**
 * By least squares on ln(M / H) over the error of each frequency, Levenberg and Marquardt's method; null where fewer than
 * six frequencies lie in the band. The delay is in s and may come out negative; everything else is positive.
 */
export function shapeOf(response: ErringResponse, band: Band = SHAPE_BAND): ShapeFit | null {
  const lines = linesOf(response, band);
  if (lines.length < LEAST_LINES) return null;
  const parameters = refined(lines, firstGuess(lines));
  const rows = lines.flatMap((line) => slopes(line, parameters));
  const chiSquare = lines.reduce((sum, line) => sum + residuals(line, parameters).reduce((s, r) => s + r * r, 0), 0);
  const misfit = chiSquare / (2 * lines.length - parameters.length);
  const jacobian = new Matrix(rows);
  const covariance = inverse(jacobian.transpose().mmul(jacobian)).mul(Math.max(1, misfit));
  const weights = lines.reduce((sum, { error }) => sum + 1 / (error * error), 0);
  return {
    ...described(parameters, covariance),
    misfit: rounded(misfit),
    residual: rounded(Math.sqrt(chiSquare / weights)),
    lines: lines.length,
  };
}

interface Line {
  readonly frequency: number;
  /** 1 / H */
  readonly inverse: readonly [re: number, im: number];
  readonly error: number;
}

function linesOf({ frequencies, value, error }: ErringResponse, { lowest, highest }: Band): Line[] {
  return [...frequencies].flatMap((frequency, k) => {
    const [re, im] = [numberAt(value.re, k), numberAt(value.im, k)];
    const square = re * re + im * im;
    if (frequency < lowest || frequency > highest) return [];
    return [{ frequency, inverse: [re / square, -im / square] as const, error: numberAt(error, k) }];
  });
}

/** M / H at a frequency. */
function relative(
  { frequency: w, inverse: [a, b] }: Line,
  [lnRatio, lnLag, late]: Parameters,
): readonly [number, number] {
  const lag = exp(lnLag);
  const turn = w * lag;
  // K / (jw (1 + jw T)) = K (-turn - j) / (w (1 + turn^2))
  const size = (exp(lnRatio) * lag) / (w * (1 + turn * turn));
  const angle = w * late * DELAY_UNIT;
  const [c, s] = [cos(angle), -sin(angle)];
  const [re, im] = [size * (-turn * c + s), size * (-turn * s - c)];
  return [re * a - im * b, re * b + im * a];
}

/**
 * ln(M / H) over the error: amplitude and phase. Unlike M / H - 1 it is not drawn to small responses by their errors: the
 * logarithm of 1 and a normal complex error has 0 as its mean.
 */
function residuals(line: Line, parameters: Parameters): [number, number] {
  const [re, im] = relative(line, parameters);
  return [ln(re * re + im * im) / 2 / line.error, atan2(im, re) / line.error];
}

/** Of the two, by each parameter. */
function slopes({ frequency, error }: Line, [, lnLag]: Parameters): number[][] {
  const turn = frequency * exp(lnLag);
  const share = 1 + turn * turn;
  return [
    [1 / error, 1 / share / error, 0],
    [0, -turn / share / error, (-frequency * DELAY_UNIT) / error],
  ];
}

/** The best of a coarse net of lags and delays, each with the authority that suits it. */
function firstGuess(lines: readonly Line[]): Parameters {
  let best: Parameters = [0, 0, 0];
  let least = Number.POSITIVE_INFINITY;
  for (let n = 0; n <= 10; n++)
    for (let m = -1; m <= 6; m++) {
      const lnLag = ln(0.004) + 0.4 * n; // 4 to 220 ms
      const found = lines.map((line) => ({ part: relative(line, [0, lnLag, m / 2]), error: line.error }));
      const along = found.reduce((sum, { part, error }) => sum + part[0] / (error * error), 0);
      const square = found.reduce((sum, { part, error }) => sum + (part[0] ** 2 + part[1] ** 2) / (error * error), 0);
      const cost = along > 0 ? (-along * along) / square : 0;
      if (cost < least) {
        least = cost;
        best = [ln(along / square), lnLag, m / 2];
      }
    }
  return best;
}

function refined(lines: readonly Line[], guess: Parameters): Parameters {
  const index = Array.from({ length: 2 * lines.length }, (_, k) => k);
  const { parameterValues } = levenbergMarquardt(
    { x: index, y: index.map(() => 0) },
    (values) => {
      const parts = lines.flatMap((one) => residuals(one, triple(values)));
      return (k) => at(parts, k);
    },
    {
      initialValues: [...guess],
      minValues: [-30, ln(5e-4), -2],
      maxValues: [30, ln(2), 10],
      jacobianFunction: (values) => {
        const rows = lines.flatMap((one) => slopes(one, triple(values)));
        return (k) => at(rows, k);
      },
      errorTolerance: 0,
      maxIterations: 60,
    },
  );
  return triple(parameterValues);
}

const triple = ([a = 0, b = 0, c = 0]: readonly number[]): Parameters => [a, b, c];

function described([lnRatio, lnLag, late]: Parameters, covariance: Matrix): FittedShape {
  const v = (i: number, j: number): number => covariance.get(i, j);
  const authority = v(0, 0) + v(1, 1) + 2 * v(0, 1);
  const delay = COVERAGE * DELAY_UNIT * Math.sqrt(v(2, 2));
  return {
    authority: positive(lnRatio + lnLag, authority),
    lag: positive(lnLag, v(1, 1)),
    delay: estimated(late * DELAY_UNIT, late * DELAY_UNIT - delay, late * DELAY_UNIT + delay),
    authorityOverLag: positive(lnRatio, v(0, 0)),
    correlationOfAuthorityAndLag: rounded((v(0, 1) + v(1, 1)) / Math.sqrt(authority * v(1, 1))),
  };
}

function positive(logarithm: number, variance: number): Estimated {
  const reach = Math.min(COVERAGE * Math.sqrt(variance), MOST);
  return estimated(exp(logarithm), exp(logarithm - reach), exp(logarithm + reach));
}

const estimated = (middle: number, low: number, high: number): Estimated => ({
  middle: rounded(middle),
  low: rounded(low),
  high: rounded(high),
});

const rounded = (value: number): number => Number(value.toPrecision(DIGITS));
