// Measured responses made of theory and noise, for tests of what follows from them.
import { fillGaussian, stream } from "../../src/base/random.js";
import type { FlightEvidence, MeasuredResponse } from "../../src/fit/evidence.js";
import { steadyAt } from "../../src/fit/in-flight.js";
import type { ResponseEstimate } from "../../src/fit/response-estimate.js";
import { theoryResponse } from "../../src/fit/response-residuals.js";
import type { Unknowns } from "../../src/fit/unknowns.js";
import type { LogAxis } from "../../src/flight/log.js";

const LINES = Float64Array.from({ length: 40 }, (_, k) => 2 * Math.PI * (1.5 + k));
const PACK = { charge: 0.9, voltage: null };

export interface Measuring {
  readonly error: number;
  readonly seed: number;
  /** What the log makes of the response besides noise. */
  readonly bent?: (re: number, im: number, frequency: number) => readonly [number, number];
  readonly parts?: number;
}

/** The response of the craft at these scores with errors of a share of its amplitude. */
export function measured(unknowns: Unknowns, scores: Float64Array, axis: LogAxis, how: Measuring): MeasuredResponse {
  const airframe = unknowns.airframeAt(scores);
  if (airframe === null) throw new Error("no craft has these scores");
  const theory = theoryResponse(steadyAt(airframe, unknowns.mixer, 0.35, PACK), axis, LINES);
  const { error, seed, bent = (re, im) => [re, im], parts = 0 } = how;
  const noisy = (part: number, times: number): ResponseEstimate => {
    const noise = new Float64Array(2 * LINES.length);
    fillGaussian(noise, stream("response", seed, axis, part));
    const pairs = Array.from(LINES, (w, k) => {
      const [re, im] = bent(theory.re[k], theory.im[k], w);
      const [a, b] = [times * error * noise[2 * k], times * error * noise[2 * k + 1]];
      return [re + a * re - b * im, im + a * im + b * re] as const;
    });
    return {
      method: "command alone",
      frequencies: LINES,
      value: { re: Float64Array.from(pairs, ([re]) => re), im: Float64Array.from(pairs, ([, im]) => im) },
      coherence: LINES.map(() => 0.9),
      error: LINES.map(() => error),
      windows: 20,
      duty: 0.35,
      voltage: null,
    };
  };
  const each = Array.from({ length: parts }, (_, part) => noisy(part + 1, Math.sqrt(parts)));
  return { axis, estimate: noisy(0, 1), parts: each };
}

export const flightOf = (
  responses: readonly MeasuredResponse[],
  rest: Partial<FlightEvidence> = {},
): FlightEvidence => ({
  title: "a test",
  charge: { value: 0.9, size: 0.1 },
  readings: [],
  sightings: [],
  gainsOf: () => null,
  responses,
  ...rest,
});

export function normalScores(count: number, ...keys: (number | string)[]): Float64Array {
  const scores = new Float64Array(count);
  fillGaussian(scores, stream(...keys));
  return scores;
}
