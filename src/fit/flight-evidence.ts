// What one flight says: the responses its log gives, whole and by parts, and its sightings.

import type { Airframe, AxisGains } from "../airframe/airframe.js";
import { type Mixer, mixerOf } from "../airframe/mixer.js";
import { at } from "../base/at.js";
import { ln } from "../base/elementary.js";
import { COVERAGE } from "../base/spread.js";
import type { Flight, GainsAsSet } from "../flight/flight.js";
import type { FlightLog, LogAxis, Stretch } from "../flight/log.js";
import type { GainsByAxis } from "../theory/plant.js";
import type { TimeRange } from "./even-grid.js";
import type { FlightEvidence, MeasuredResponse, Reading } from "./evidence.js";
import { inDuties } from "./in-flight.js";
import { measuredResponse } from "./measured-response.js";
import type { ReadNumber } from "./read-number.js";
import { readNumbers } from "./read-numbers.js";
import type { ResponseEstimate } from "./response-estimate.js";
import { usablePart } from "./response-residuals.js";

/** SI worth of one of the controller's own units; null where nobody knows. */
export interface UnitsWorth {
  readonly p: number;
  readonly i: number | null;
  readonly d: number;
}

export interface FlightToFit {
  readonly flight: Flight;
  readonly log: FlightLog | null;
}

/** Axes whose responses are taken; yaw's theory rests on drag and inertia of rotors alone. */
const AXES: readonly LogAxis[] = ["roll", "pitch"];

/** A pack whose voltage nobody logged: by its charge as written, less what a flight takes; or anything a pilot flies with. */
const CHARGE = Object.freeze({ taken: 0.1, size: 0.2, unknown: { value: 0.7, size: 0.5 } });

/** `apart`: seconds of the log that stay out. */
export function flightEvidence(
  { flight, log }: FlightToFit,
  airframe: Airframe,
  worth: UnitsWorth | null,
  apart: TimeRange | null,
): FlightEvidence {
  const { charge } = flight.pack;
  const mixer = mixerOf(airframe.rotors, airframe.centreOfMass);
  return {
    title: flight.title,
    charge: charge === null ? CHARGE.unknown : { value: Math.max(0, charge - CHARGE.taken), size: CHARGE.size },
    responses: log === null ? [] : AXES.flatMap((axis) => responsesOf(log, mixer, axis, apart)),
    readings: log === null ? [] : readNumbers(log, inDuties(airframe)).flatMap(readingOf),
    sightings: flight.sightings,
    gainsOf: ({ axis, gains }) => gainsByAxis({ ...flight.gains, [axis]: gains }, worth),
  };
}

function readingOf({ key, value }: ReadNumber): Reading[] {
  if (value === null || !(value.low > 0)) return [];
  return [{ key, ln: ln(value.middle), deviation: ln(value.high / value.low) / (2 * COVERAGE) }];
}

const NO_GAINS: AxisGains = Object.freeze({ p: 0, i: 0, d: 0 });

/** SI gains of all axes; those of an axis that the flight does not give are 0. Null where they are in units worth nothing yet. */
function gainsByAxis(gains: Flight["gains"], worth: UnitsWorth | null): GainsByAxis | null {
  const of = (set: GainsAsSet | undefined): AxisGains | null => (set === undefined ? NO_GAINS : inSi(set, worth));
  const [roll, pitch, yaw] = [of(gains.roll), of(gains.pitch), of(gains.yaw)];
  return roll === null || pitch === null ? null : { roll, pitch, yaw: yaw ?? NO_GAINS };
}

/** Null where the controller's own units are not worth anything yet. */
export function inSi({ own, p, i, d }: GainsAsSet, worth: UnitsWorth | null): AxisGains | null {
  if (!own) return { p, i: i ?? 0, d };
  return worth === null ? null : { p: p * worth.p, i: (i ?? 0) * (worth.i ?? 0), d: d * worth.d };
}

/** Parts of a log whose estimates are held against each other. */
const PARTS = 4;
/** Duty within which a part's range of throttle is the whole's. */
const SAME_DUTY = 0.05;

function responsesOf(log: FlightLog, mixer: Mixer, axis: LogAxis, apart: TimeRange | null): MeasuredResponse[] {
  const estimates = measuredResponse(log, mixer, axis, { apart }).map(usablePart);
  if (estimates.length === 0) return [];
  const parts = partsOf(log).flatMap((part) => measuredResponse(part, mixer, axis, { apart }).map(usablePart));
  return estimates
    .filter(({ frequencies }) => frequencies.length > 0)
    .map((estimate) => {
      const near = parts.filter(({ duty }) => Math.abs(duty - estimate.duty) < SAME_DUTY);
      return { axis, estimate, parts: near.map((part) => onLinesOf(estimate, part)) };
    });
}

/** The log's usable time cut into as many parts of equally many rows. */
function partsOf(log: FlightLog): FlightLog[] {
  const rows = log.stretches.reduce((sum, { from, to }) => sum + to - from, 0);
  return Array.from({ length: PARTS }, (_, part) => {
    const [first, last] = [Math.round((part * rows) / PARTS), Math.round(((part + 1) * rows) / PARTS)];
    let before = 0;
    const stretches = log.stretches.flatMap(({ from, to }): Stretch[] => {
      const start = Math.max(from, from + first - before);
      const end = Math.min(to, from + last - before);
      before += to - from;
      return end - start > 1 ? [{ from: start, to: end }] : [];
    });
    return { ...log, stretches };
  });
}

const SAME_LINE = 1e-6;

/** A part's estimate on the lines of the whole one; lines it lacks are those of the whole, and say nothing of scatter. */
function onLinesOf(whole: ResponseEstimate, part: ResponseEstimate): ResponseEstimate {
  const places = Array.from(whole.frequencies, (w) =>
    part.frequencies.findIndex((own) => Math.abs(own / w - 1) < SAME_LINE),
  );
  const value = (component: "re" | "im") =>
    Float64Array.from(places, (place, k) => at((place < 0 ? whole : part).value[component], place < 0 ? k : place));
  return { ...whole, value: { re: value("re"), im: value("im") } };
}
