// What follows from a model's numbers, with how far it may be off: to first order in the scores.

import type { Matrix } from "ml-matrix";
import { at } from "../base/at.js";
import { exp } from "../base/elementary.js";
import { COVERAGE } from "../base/spread.js";
import type { Estimated } from "./format.js";

/** Mean and covariance of independent scores. */
export interface ScoresWithin {
  readonly place: Float64Array;
  readonly covariance: Matrix;
}

export interface Derived {
  readonly values: readonly number[];
  /** [value][value] */
  covariance(one: number, other: number): number;
}

const STEP = 0.02;

/** `of` gives as many values for any scores, or null where no craft can have those. */
export function derived(
  { place, covariance }: ScoresWithin,
  of: (scores: Float64Array) => readonly number[] | null,
): Derived | null {
  const values = of(place);
  if (values === null) return null;
  const slopes = Array.from(place, (score, k) => {
    for (const step of [STEP, -STEP]) {
      const moved = place.slice();
      moved[k] = score + step;
      const beside = of(moved);
      if (beside !== null) return values.map((value, j) => (at(beside, j) - value) / step);
    }
    return values.map(() => 0);
  });
  return {
    values,
    covariance: (one, other) =>
      slopes.reduce(
        (sum, by, i) =>
          sum + at(by, one) * slopes.reduce((inner, to, j) => inner + covariance.get(i, j) * at(to, other), 0),
        0,
      ),
  };
}

/** 95 of 100, of a value that is a logarithm, turned back. */
export function positiveInterval({ values, covariance }: Derived, k: number): Estimated {
  const reach = COVERAGE * Math.sqrt(covariance(k, k));
  const middle = at(values, k);
  return { middle: exp(middle), low: exp(middle - reach), high: exp(middle + reach) };
}

export function interval({ values, covariance }: Derived, k: number): Estimated {
  const reach = COVERAGE * Math.sqrt(covariance(k, k));
  const middle = at(values, k);
  return { middle, low: middle - reach, high: middle + reach };
}
