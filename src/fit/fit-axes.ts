// What a fit shows of each axis: its shape before and after, the measured response with theory's, and what theory lacks.
import { Matrix } from "ml-matrix";
import { at } from "../base/at.js";
import { atan2 } from "../base/elementary.js";
import type { FlightLog } from "../flight/log.js";
import type { ComplexArray } from "../theory/frequency.js";
import { axisShape } from "./axis-shape.js";
import type { TimeRange } from "./even-grid.js";
import type { Evidence } from "./evidence.js";
import type { Fitted } from "./fitted.js";
import type { FittedShape, KeptOut, ResponseOfAxis } from "./format.js";
import { steadyAt } from "./in-flight.js";
import { keptOutOf } from "./kept-out.js";
import { errorsTimes } from "./misfit.js";
import { notModelled } from "./not-modelled.js";
import { logRatios, theoryResponse } from "./response-residuals.js";
import { SHAPE_BAND } from "./shape.js";

export interface AxisOfFit {
  readonly before: FittedShape;
  readonly after: FittedShape;
  readonly response: ResponseOfAxis | null;
  readonly keptOut: KeptOut | null;
}

/** The log of a flight, and what of it was not fitted. */
export interface LogOfFit {
  readonly log: FlightLog;
  readonly apart: TimeRange | null;
}

type Measured = Evidence["responses"][number];

/** Lines without which no shape is drawn through a response. */
const LEAST_LINES = 8;
const HERTZ = 2 * Math.PI;
const DEGREE = Math.PI / 180;

/** Null where no craft with these numbers can hover. */
export function axisOfFit(fit: Fitted, axis: "roll" | "pitch", logs: readonly (LogOfFit | null)[]): AxisOfFit | null {
  const { evidence, unknowns, posterior, place } = fit;
  const places = [...evidence.responses.keys()].filter((k) => at(evidence.responses, k).axis === axis);
  const best = places.reduce<number | null>(
    (so, k) => (so === null || lines(evidence, k) > lines(evidence, so) ? k : so),
    null,
  );
  const shown = best === null ? null : at(evidence.responses, best);
  const drawn = shown !== null && inBand(shown) >= LEAST_LINES ? shown : null;
  const where = {
    axis,
    estimate: drawn?.estimate ?? null,
    charge: (scores: Float64Array) => at(evidence.charges(scores), drawn?.flight ?? 0),
  };
  const written = new Float64Array(place.length);
  const before = axisShape(unknowns, where, { place: written, covariance: Matrix.eye(place.length) });
  const after = axisShape(unknowns, where, { place, covariance: posterior.covariance });
  if (before === null || after === null) return null;
  const response = shown === null || best === null ? null : responseOf(fit, shown, at(posterior.misfits, best));
  const log = shown === null ? null : (logs[shown.flight] ?? null);
  const keptOut =
    log === null || best === null || log.apart === null ? null : keptOutOf(fit, best, log.log, axis, log.apart);
  return { before, after, response, keptOut };
}

const lines = ({ responses }: Evidence, k: number): number => at(responses, k).estimate.frequencies.length;
const inBand = ({ estimate }: Measured): number =>
  estimate.frequencies.filter((w) => w >= SHAPE_BAND.lowest && w <= SHAPE_BAND.highest).length;

function responseOf(
  { evidence, unknowns, place }: Fitted,
  { estimate, axis, flight }: Measured,
  misfit: Parameters<typeof errorsTimes>[0],
): ResponseOfAxis | null {
  const { frequencies, value, coherence, error, duty, voltage } = estimate;
  const theory = (scores: Float64Array): ComplexArray | null => {
    const airframe = unknowns.airframeAt(scores.subarray(0, unknowns.spreads.length));
    if (airframe === null) return null;
    const pack = { charge: at(evidence.charges(scores), flight), voltage };
    return theoryResponse(steadyAt(airframe, unknowns.mixer, duty, pack), axis, frequencies);
  };
  const [before, after] = [theory(new Float64Array(place.length)), theory(place)];
  if (before === null || after === null) return null;
  const ratios = logRatios({ value }, after);
  const every = (part: number) => Array.from(frequencies, (_, k) => at(ratios, 2 * k + part));
  const times = errorsTimes(misfit);
  return {
    frequency_Hz: Array.from(frequencies, (w) => w / HERTZ),
    coherence: [...coherence],
    measured: polar(value),
    error: [...error],
    before: polar(before),
    after: polar(after),
    misfit: misfit.perFreedom * misfit.repeats,
    notModelled: notModelled({
      frequencies,
      amplitude: every(0),
      phase: every(1),
      error: Array.from(error, (one) => one * times),
    }),
  };
}

/** Phase goes on from one frequency to the next. */
function polar({ re, im }: ComplexArray): { readonly amplitude: number[]; readonly phase_deg: number[] } {
  const amplitude = Array.from(re, (x, k) => Math.sqrt(x * x + at(im, k) ** 2));
  const phase_deg: number[] = [];
  for (const [k, x] of re.entries()) {
    const angle = atan2(at(im, k), x) / DEGREE;
    const before = phase_deg[k - 1] ?? -120; // where an integrator with some lag begins
    phase_deg.push(angle + 360 * Math.round((before - angle) / 360));
  }
  return { amplitude, phase_deg };
}
