// A part of a log that the fit does not see, and what the model before and after makes of it.
import { at } from "../base/at.js";
import type { FlightLog, LogAxis } from "../flight/log.js";
import type { TimeRange } from "./even-grid.js";
import type { Fitted } from "./fitted.js";
import type { KeptOut } from "./format.js";
import { steadyAt } from "./in-flight.js";
import { predicted, type RateResponse } from "./prediction.js";
import { theoryResponse } from "./response-residuals.js";

/** Seconds: a part below the least is no test, one above the most is missed by the fit. A shorter log is all fitted. */
const PART = Object.freeze({ share: 0.2, least: 5, most: 15, ofAtLeast: 11 });

/** The end of what may be used of a log; null where it is too short to spare any. */
export function partApart({ time, stretches }: FlightLog): TimeRange | null {
  const seconds = stretches.reduce((sum, { from, to }) => sum + at(time, to - 1) - at(time, from), 0);
  const last = stretches.at(-1);
  if (last === undefined || seconds < PART.ofAtLeast) return null;
  const to = at(time, last.to - 1);
  const wanted = Math.min(PART.most, Math.max(PART.least, PART.share * seconds));
  return { from: Math.max(at(time, last.from), to - wanted), to };
}

const DEGREE = Math.PI / 180;
/** Points of the page's picture at most. */
const POINTS = 600;

/** `response`: index among the fit's responses, whose steady flight the prediction assumes. Null where the log has no such part. */
export function keptOutOf(
  { unknowns, evidence, place }: Fitted,
  response: number,
  log: FlightLog,
  axis: LogAxis,
  range: TimeRange,
): KeptOut | null {
  const { estimate, flight } = at(evidence.responses, response);
  const by = (scores: Float64Array): RateResponse | null => {
    const airframe = unknowns.airframeAt(scores.subarray(0, unknowns.spreads.length));
    if (airframe === null) return null;
    const pack = { charge: at(evidence.charges(scores), flight), voltage: estimate.voltage };
    const steady = steadyAt(airframe, unknowns.mixer, estimate.duty, pack);
    return (frequencies) => theoryResponse(steady, axis, frequencies);
  };
  const [before, after] = [by(new Float64Array(place.length)), by(place)];
  if (before === null || after === null) return null;
  const [was, is] = [before, after].map((one) => predicted(log, unknowns.mixer, axis, range, one));
  if (was == null || is == null) return null;
  const every = Math.ceil(is.time.length / POINTS);
  const some = (values: Float64Array, per: number) =>
    Array.from({ length: Math.ceil(values.length / every) }, (_, k) => at(values, k * every) / per);
  return {
    from_s: range.from,
    to_s: range.to,
    explainedBefore: was.explained,
    explained: is.explained,
    time_s: some(is.time, 1),
    measured_dps: some(is.measured, DEGREE),
    predicted_dps: some(is.predicted, DEGREE),
  };
}
