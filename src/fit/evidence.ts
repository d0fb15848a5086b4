// What flights say about a craft, as one likelihood of its scores and of the charge of packs whose voltage nobody logged.
import { Matrix } from "ml-matrix";
import type { Airframe } from "../airframe/airframe.js";
import { valueAtScore } from "../airframe/spread-values.js";
import { at } from "../base/at.js";
import { ln } from "../base/elementary.js";
import type { Sighting } from "../flight/flight.js";
import type { LogAxis } from "../flight/log.js";
import { type SteadyFlight, steadyAt } from "./in-flight.js";
import type { Group, Likelihood } from "./least-squares.js";
import type { Parts } from "./posterior.js";
import type { ResponseEstimate } from "./response-estimate.js";
import { inErrors, logRatios, theoryResponse } from "./response-residuals.js";
import { residualsOf, type SightingPlace, sightingResiduals } from "./sighting-residuals.js";
import type { Unknowns } from "./unknowns.js";

/** A response of one axis in one range of throttle, with what parts of the log alone give at the same frequencies. */
export interface MeasuredResponse {
  readonly axis: LogAxis;
  readonly estimate: ResponseEstimate;
  readonly parts: readonly ResponseEstimate[];
}

/** A number of the model that a log shows by itself, positive: its logarithm with a standard deviation. */
export interface Reading {
  readonly key: string;
  readonly ln: number;
  readonly deviation: number;
}

export interface FlightEvidence {
  readonly title: string;
  /** Of the pack, 0 to 1, and how far it may be off (two standard deviations). */
  readonly charge: { readonly value: number; readonly size: number };
  readonly responses: readonly MeasuredResponse[];
  readonly readings: readonly Reading[];
  readonly sightings: readonly Sighting[];
  readonly gainsOf: SightingPlace["gainsOf"];
}

export interface Evidence {
  readonly likelihood: Likelihood;
  /** In the order of the groups. */
  readonly responses: readonly (MeasuredResponse & { readonly flight: number; readonly group: Group })[];
  partsAt(scores: Float64Array): readonly Parts[];
  /** Charge of each flight's pack at these scores. */
  charges(scores: Float64Array): readonly number[];
}

const [EMPTY, FULL] = [0.02, 1];
/** Of a number that its spread lets fall to nothing. */
const LEAST = 1e-30;
/** Of craft that cannot be: far out for every residual. */
const IMPOSSIBLE = 50;

/** Scores: first those of the unknowns, then one per flight for its pack's charge. */
export function evidenceOf(unknowns: Unknowns, flights: readonly FlightEvidence[]): Evidence {
  const own = unknowns.spreads.length;
  const responses: Evidence["responses"][number][] = [];
  let length = 0;
  for (const [flight, { responses: some }] of flights.entries())
    for (const one of some) {
      const group = { name: one.axis, from: length, to: length + 2 * one.estimate.frequencies.length };
      responses.push({ ...one, flight, group });
      length = group.to;
    }
  const read = flights.flatMap(({ readings }) =>
    readings.flatMap(({ key, ...reading }) => {
      const place = unknowns.spreads.findIndex((spread) => spread.key === key);
      return place < 0 ? [] : [{ ...reading, place }];
    }),
  );
  const readFrom = length;
  length += read.length;
  const seen = flights.map(({ sightings, gainsOf }) =>
    sightings.reduce((sum, one) => sum + residualsOf(one, one.kind === "oscillation" && gainsOf(one) !== null), 0),
  );
  const total = length + seen.reduce((sum, one) => sum + one, 0);
  const readGroup = read.length > 0 ? [{ name: "readings", from: readFrom, to: length, single: true as const }] : [];
  const sightingGroup = total > length ? [{ name: "sightings", from: length, to: total, single: true as const }] : [];

  const charges = (scores: Float64Array) =>
    flights.map(({ charge: { value, size } }, k) =>
      Math.min(FULL, Math.max(EMPTY, value + 0.5 * size * at(scores, own + k))),
    );
  const airframeAt = (scores: Float64Array) => unknowns.airframeAt(scores.subarray(0, own));

  function residuals(scores: Float64Array): Float64Array {
    const out = new Float64Array(total).fill(IMPOSSIBLE);
    const airframe = airframeAt(scores);
    if (airframe === null) return out;
    const charge = charges(scores);
    for (const [k, ratios] of ratiosOf(airframe, charge).entries()) {
      const { estimate, group } = at(responses, k);
      out.set(inErrors(ratios(estimate), estimate.error), group.from);
    }
    const scoresOf = unknowns.factor.mmul(Matrix.columnVector([...scores.subarray(0, own)]));
    out.set(
      read.map(({ place, ln: value, deviation }) => {
        const number = valueAtScore(at(unknowns.spreads, place), scoresOf.get(place, 0));
        return (ln(Math.max(LEAST, number)) - value) / deviation;
      }),
      readFrom,
    );
    let place = length;
    for (const [k, { sightings, gainsOf }] of flights.entries()) {
      const where = { mixer: unknowns.mixer, charge: at(charge, k), gainsOf };
      out.set(sightingResiduals(airframe, sightings, where), place);
      place += at(seen, k);
    }
    return out;
  }

  /** Per response what a measured one makes of theory's at its place. */
  const ratiosOf = (airframe: Airframe, charge: readonly number[]) => {
    const byPlace = new Map<string, SteadyFlight>();
    return responses.map(({ axis, estimate: { duty, voltage, frequencies }, flight }) => {
      const key = `${flight} ${duty} ${voltage}`;
      const steady =
        byPlace.get(key) ?? steadyAt(airframe, unknowns.mixer, duty, { charge: at(charge, flight), voltage });
      byPlace.set(key, steady);
      const theory = theoryResponse(steady, axis, frequencies);
      return (one: ResponseEstimate) => logRatios(one, theory);
    });
  };

  return {
    likelihood: {
      scores: own + flights.length,
      groups: [...responses.map(({ group }) => group), ...readGroup, ...sightingGroup],
      residuals,
    },
    responses,
    charges,
    partsAt(scores) {
      const airframe = airframeAt(scores);
      if (airframe === null) return [];
      return ratiosOf(airframe, charges(scores)).flatMap((ratios, k): Parts[] => {
        const { group, parts, estimate } = at(responses, k);
        if (parts.length < 2) return [];
        return [{ group, residuals: parts.map((part) => inErrors(ratios(part), estimate.error)) }];
      });
    },
  };
}
