// What would teach most: by how much the spread of each number would shrink if one more response were measured.
import { inverse, Matrix } from "ml-matrix";
import { hoverTrim, trimAt } from "../airframe/trim.js";
import { at } from "../base/at.js";
import type { LogAxis } from "../flight/log.js";
import type { Fitted } from "./fitted.js";
import { collectiveDuty, craftOf, steadyAt } from "./in-flight.js";
import { inErrors, logRatios, theoryResponse } from "./response-residuals.js";

export interface Lesson {
  readonly axis: LogAxis;
  /** Duty, or null: in hover. */
  readonly throttle: number | null;
  /** Whose spread shrinks most, and by what share. */
  readonly key: string;
  readonly narrows: number;
}

/** Ten seconds of quick moves: nine windows half overlapping, coherence 0.95, with what neighbouring lines repeat. */
const ERROR = 0.08;
const FREQUENCIES = Float64Array.from({ length: 78 }, (_, k) => 2 * Math.PI * (1.5 + 0.5 * k));
const CHARGE = 0.9;
const STEP = 1e-2;
/** Above hover by this factor at least, a throttle is another place. */
const ANOTHER = 1.3;

/** The most telling first; `throttles` beside hover. */
export function lessons(fit: Fitted, axes: readonly LogAxis[], throttles: readonly number[]): Lesson[] {
  const { unknowns, place } = fit;
  const count = unknowns.spreads.length;
  const airframe = unknowns.airframeAt(place.subarray(0, count));
  if (airframe === null) return [];
  const craft = craftOf(airframe, unknowns.mixer, CHARGE);
  const hover = hoverTrim(craft);
  if (hover === null) return [];
  const levels = [null, ...throttles.filter((level) => level > ANOTHER * hover.throttle)];
  const found = axes.flatMap((axis) =>
    levels.map((throttle) =>
      lesson(fit, axis, throttle, collectiveDuty(craft, throttle === null ? hover : trimAt(craft, throttle))),
    ),
  );
  return found.flatMap((one) => (one === null ? [] : [one])).sort((a, b) => b.narrows - a.narrows);
}

function lesson(
  { unknowns, posterior, place }: Fitted,
  axis: LogAxis,
  throttle: number | null,
  duty: number,
): Lesson | null {
  const count = unknowns.spreads.length;
  const response = (scores: Float64Array) => {
    const airframe = unknowns.airframeAt(scores);
    if (airframe === null) return null;
    return theoryResponse(
      steadyAt(airframe, unknowns.mixer, duty, { charge: CHARGE, voltage: null }),
      axis,
      FREQUENCIES,
    );
  };
  const own = place.slice(0, count);
  const here = response(own);
  if (here === null) return null;
  const slopes = Matrix.zeros(2 * FREQUENCIES.length, count);
  const errors = FREQUENCIES.map(() => ERROR);
  for (let k = 0; k < count; k++) {
    const moved = own.slice();
    moved[k] = at(own, k) + STEP;
    const beside = response(moved);
    if (beside === null) continue;
    for (const [row, r] of inErrors(logRatios({ value: beside }, here), errors).entries()) slopes.set(row, k, r / STEP);
  }
  const before = posterior.covariance.subMatrix(0, count - 1, 0, count - 1);
  const after = inverse(inverse(before).add(slopes.transpose().mmul(slopes)));
  const deviations = (covariance: Matrix) =>
    unknowns.factor.mmul(covariance).mmul(unknowns.factor.transpose()).diagonal().map(Math.sqrt);
  const [now, then] = [deviations(before), deviations(after)];
  const narrows = now.map((deviation, k) => 1 - at(then, k) / deviation);
  const best = narrows.indexOf(Math.max(...narrows));
  return { axis, throttle, key: at(unknowns.spreads, best).key, narrows: at(narrows, best) };
}
