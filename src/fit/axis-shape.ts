// Authority, lag and delay of an axis, of a model before and after a fit: theory's response on the frequencies that were
// measured, weighted as they were, in the shape that model and craft are compared in.
import type { Airframe } from "../airframe/airframe.js";
import { hoverTrim } from "../airframe/trim.js";
import { ln } from "../base/elementary.js";
import { derived, interval, positiveInterval, type ScoresWithin } from "./derived.js";
import type { FittedShape } from "./format.js";
import { craftOf, inDuties, type SteadyFlight, steadyAt } from "./in-flight.js";
import type { ResponseEstimate } from "./response-estimate.js";
import { theoryResponse } from "./response-residuals.js";
import { type ErringResponse, SHAPE_BAND, shapeOf } from "./shape.js";
import type { Unknowns } from "./unknowns.js";

/** Where an axis is looked at: as a response was measured, or in hover where none was. */
export interface ShapePlace {
  readonly axis: "roll" | "pitch";
  readonly estimate: ResponseEstimate | null;
  /** 0 to 1, at these scores. */
  charge(scores: Float64Array): number;
}

const LINES = 40;

/** Null where no shape can be drawn through it. */
export function axisShape(unknowns: Unknowns, place: ShapePlace, within: ScoresWithin): FittedShape | null {
  const found = derived(within, (scores) => {
    const airframe = unknowns.airframeAt(scores.subarray(0, unknowns.spreads.length));
    const steady = airframe === null ? null : steadyIn(airframe, unknowns, place, scores);
    return steady === null ? null : shapeNumbers(steady, place);
  });
  if (found === null) return null;
  const [authority, lag] = [0, 1];
  return {
    authority: positiveInterval(found, authority),
    lag: positiveInterval(found, lag),
    delay: interval(found, 2),
    authorityOverLag: positiveInterval(found, 3),
    correlationOfAuthorityAndLag:
      found.covariance(authority, lag) / Math.sqrt(found.covariance(authority, authority) * found.covariance(lag, lag)),
  };
}

function steadyIn(
  airframe: Airframe,
  { mixer }: Unknowns,
  { estimate, charge }: ShapePlace,
  scores: Float64Array,
): SteadyFlight | null {
  if (estimate !== null)
    return steadyAt(airframe, mixer, estimate.duty, { charge: charge(scores), voltage: estimate.voltage });
  const craft = craftOf(inDuties(airframe), mixer, charge(scores));
  const trim = hoverTrim(craft);
  return trim === null ? null : { craft, trim };
}

function shapeNumbers(steady: SteadyFlight, { axis, estimate }: ShapePlace): readonly number[] | null {
  const shape = shapeOf(theoretical(steady, axis, estimate));
  if (shape === null) return null;
  const [authority, lag] = [ln(shape.authority.middle), ln(shape.lag.middle)];
  return [authority, lag, shape.delay.middle, authority - lag];
}

/** Theory's response where the measured one is, with its errors. */
function theoretical(
  steady: SteadyFlight,
  axis: ShapePlace["axis"],
  estimate: ResponseEstimate | null,
): ErringResponse {
  const { lowest, highest } = SHAPE_BAND;
  const even = Float64Array.from({ length: LINES }, (_, k) => lowest + ((highest - lowest) * k) / (LINES - 1));
  const frequencies = estimate?.frequencies ?? even;
  return {
    frequencies,
    value: theoryResponse(steady, axis, frequencies),
    error: estimate?.error ?? frequencies.map(() => 1),
  };
}
