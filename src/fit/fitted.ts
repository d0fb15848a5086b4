// A model and what flights say about it: the likeliest numbers with their spreads and correlations.
import { inverse, Matrix, solve } from "ml-matrix";
import { valueAtScore } from "../airframe/spread-values.js";
import { at } from "../base/at.js";
import { COVERAGE, type Spread } from "../base/spread.js";
import { type Evidence, evidenceOf, type FlightEvidence, type MeasuredResponse } from "./evidence.js";
import type { Estimated, FittedNumber } from "./format.js";
import { type Posterior, posteriorOf } from "./posterior.js";
import type { Unknowns } from "./unknowns.js";
import { fittedSpread, type Score } from "./written.js";

/** A number that narrows by less than this share is left as it is: the flights say nothing about it. */
const SAID_NOTHING = 0.05;

export interface Fitted {
  readonly unknowns: Unknowns;
  readonly evidence: Evidence;
  readonly posterior: Posterior;
  /** Independent scores of what the new model writes, with those of the packs. */
  readonly place: Float64Array;
  /** Of each spread, as the new model is to have it. */
  readonly scores: readonly Score[];
  readonly numbers: readonly FittedNumber[];
  /** Of the scores of the spreads, after. */
  readonly correlations: Matrix;
  /** Responses that no craft within the spreads gives, and of which nothing was taken. */
  readonly setAside: readonly SetAside[];
}

export interface SetAside {
  readonly flight: number;
  readonly response: MeasuredResponse;
  /** What is left between measured and theory's response, as a share of it (rad in phase). */
  readonly left: number;
  /** The likeliest craft turns the other way. */
  readonly turned: boolean;
}

/** `unknowns` and what was flown and seen. */
export function fitted(unknowns: Unknowns, flights: readonly FlightEvidence[]): Fitted {
  const setAside: SetAside[] = [];
  let used = flights;
  for (;;) {
    const evidence = evidenceOf(unknowns, used);
    const posterior = posteriorOf(evidence.likelihood, evidence.partsAt);
    const worst = worstOf(evidence, posterior);
    if (worst === null) return { ...described(unknowns, posterior), evidence, posterior, setAside };
    setAside.push(worst);
    used = used.map((flight, k) =>
      k === worst.flight
        ? { ...flight, responses: flight.responses.filter(({ estimate }) => estimate !== worst.response.estimate) }
        : flight,
    );
  }
}

/** What is left between a measured response and the likeliest craft's, beyond its errors, from which on it is another craft's. */
const ANOTHER_CRAFT = 0.3;
const TURNED = 2; // rad of phase

function worstOf({ responses }: Evidence, { found: { residuals } }: Posterior): SetAside | null {
  let worst: SetAside | null = null;
  for (const { group, flight, axis, estimate, parts } of responses) {
    let [square, phase, weights] = [0, 0, 0];
    for (const [k, error] of estimate.error.entries()) {
      const [amplitude, angle] = [0, 1].map((part) => error * at(residuals, group.from + 2 * k + part)) as [
        number,
        number,
      ];
      const weight = 1 / (error * error);
      square += weight * (0.5 * (amplitude * amplitude + angle * angle) - error * error);
      phase += weight * Math.abs(angle);
      weights += weight;
    }
    const left = Math.sqrt(Math.max(0, square / weights));
    if (left > ANOTHER_CRAFT && left > (worst?.left ?? 0))
      worst = { flight, response: { axis, estimate, parts }, left, turned: phase / weights > TURNED };
  }
  return worst;
}

function described(unknowns: Unknowns, { scores, covariance }: Posterior) {
  const count = unknowns.spreads.length;
  const { factor } = unknowns;
  const own = factor.mmul(covariance.subMatrix(0, count - 1, 0, count - 1)).mmul(factor.transpose());
  const places = factor.mmul(Matrix.columnVector([...scores.subarray(0, count)])).getColumn(0);
  const deviations = own.diagonal().map(Math.sqrt);
  const untouched = deviations.flatMap((deviation, k) => (1 - deviation < SAID_NOTHING ? [k] : []));
  const means = withoutMoving(places, own, untouched);
  const after = deviations.map(
    (deviation, k): Score => (untouched.includes(k) ? { mean: 0, deviation: 1 } : { mean: at(means, k), deviation }),
  );
  const correlations = Matrix.eye(count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) correlations.set(i, j, own.get(i, j) / (at(deviations, i) * at(deviations, j)));
  const numbers = unknowns.spreads.map((spread, k) => numberOf(spread, at(after, k)));
  const place = scores.slice();
  const independent = solve(factor, Matrix.columnVector(after.map(({ mean }) => mean)));
  place.set(independent.getColumn(0));
  return { unknowns, place, scores: after, numbers, correlations };
}

/**
 * The likeliest scores with some of them at 0, where they were before: numbers that keep their text take their share of the
 * shift from the others with them.
 */
function withoutMoving(scores: ArrayLike<number>, covariance: Matrix, still: readonly number[]): number[] {
  const all = Array.from(scores);
  if (still.length === 0) return all;
  const rows = covariance.selection(still, [...all.keys()]);
  const block = covariance.selection([...still], [...still]);
  const pull = inverse(block).mmul(Matrix.columnVector(still.map((k) => at(all, k))));
  const shift = rows.transpose().mmul(pull).getColumn(0);
  return all.map((score, k) => score - at(shift, k));
}

function numberOf(spread: Spread, score: Score): FittedNumber {
  const learnt = 1 - score.deviation;
  const before = intervalOf(spread);
  const after = score.deviation === 1 ? before : intervalOf({ ...spread, ...fittedSpread(spread, score) });
  return { key: spread.key, before, after, learnt };
}

const intervalOf = (spread: Spread): Estimated => {
  const [low, middle, high] = [-COVERAGE, 0, COVERAGE].map((score) => valueAtScore(spread, score)) as [
    number,
    number,
    number,
  ];
  return { low, middle, high };
};
