// Whether spreads after a fit are honest: truths drawn from what the model says of itself, flights by a simulator that is not
// ours, and how often each interval holds the truth. All hundred by night.
import { beforeAll, describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { drawsOf } from "../../src/airframe/draws.js";
import { hoverTrim } from "../../src/airframe/trim.js";
import { at } from "../../src/base/at.js";
import { ln } from "../../src/base/elementary.js";
import { COVERAGE } from "../../src/base/spread.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { readDocument } from "../../src/files/read.js";
import { axisShape, type ShapePlace } from "../../src/fit/axis-shape.js";
import { derived } from "../../src/fit/derived.js";
import { fitted } from "../../src/fit/fitted.js";
import { flightEvidence } from "../../src/fit/flight-evidence.js";
import { craftOf } from "../../src/fit/in-flight.js";
import { unknownsOf } from "../../src/fit/unknowns.js";
import { coarsePieces } from "../../src/theory/axis-pieces.js";
import { stableIntervals } from "../../src/theory/boundary.js";
import type { GainsByAxis } from "../../src/theory/plant.js";
import { NIGHT } from "../hostile/cases.js";
import { solvedFlight } from "./solved-flight.js";

const FLIGHTS = 100;
const FLOWN = NIGHT ? FLIGHTS : 10;
const SECONDS = NIGHT ? 20 : 10;
const CHARGE = 0.8;
const LOOP_GAIN = 0.1;

const document = readDocument("models/sandpiper-r1.yaml");
const unknowns = unknownsOf(document, LOOP_GAIN);
const { draws } = drawsOf(document, { count: FLIGHTS, seed: 1, purpose: "coverage", loopGain: LOOP_GAIN });
const none = { p: 0, i: 0, d: 0 };
const HOLDING: GainsByAxis = { roll: none, pitch: none, yaw: none };

/** ln of P at which roll sustains an oscillation in hover, D 1 %/(1000 deg/s^2). */
function lnBoundary(airframe: Airframe | null): number | null {
  if (airframe === null) return null;
  const craft = craftOf(airframe, unknowns.mixer, CHARGE);
  const trim = hoverTrim(craft);
  if (trim === null) return null;
  const pieces = coarsePieces(craft, trim)("roll", HOLDING);
  const [first] = stableIntervals(pieces, D_UNIT, unknowns.airframe.controller.roll.i, {
    from: P_UNIT,
    to: 500 * P_UNIT,
  });
  return first === undefined ? null : ln(first.to);
}

interface Held {
  readonly name: string;
  readonly inside: boolean;
  readonly narrowed: number;
}

function judged(k: number): Held[] {
  const { values, airframe } = at(draws, k);
  const log = solvedFlight(airframe, unknowns.mixer, { seconds: SECONDS, seed: k, charge: CHARGE });
  const flight = {
    title: "solved",
    date: null,
    model: "",
    pack: { cells: null, charge: CHARGE + 0.1 },
    gains: {},
    log: null,
    sightings: [],
  };
  const evidence = flightEvidence({ flight, log }, unknowns.airframe, null, null);
  const fit = fitted(unknowns, [{ ...evidence, readings: [] }]);
  const numbers = fit.numbers.map(({ key, after, learnt }, n): Held => {
    const value = at(values, n);
    return { name: key, inside: value >= after.low && value <= after.high, narrowed: learnt };
  });
  const [response] = fit.evidence.responses;
  const where: ShapePlace = { axis: "roll", estimate: response.estimate, charge: () => CHARGE };
  const within = { place: fit.place, covariance: fit.posterior.covariance };
  const after = axisShape(unknowns, where, within);
  const truth = axisShape({ ...unknowns, airframeAt: () => airframe }, where, {
    place: new Float64Array(1),
    covariance: fit.posterior.covariance.subMatrix(0, 0, 0, 0),
  });
  if (after === null || truth === null) throw new Error("no shape");
  const shapes = (["authority", "lag", "delay", "authorityOverLag"] as const).map((name): Held => {
    const value = truth[name].middle;
    return { name, inside: value >= after[name].low && value <= after[name].high, narrowed: 0 };
  });
  const edge = derived(within, (scores) => {
    const value = lnBoundary(unknowns.airframeAt(scores.subarray(0, unknowns.spreads.length)));
    return value === null ? null : [value];
  });
  const real = lnBoundary(airframe);
  if (edge === null || real === null) throw new Error("no boundary");
  const off = Math.abs(real - at(edge.values, 0));
  const boundary = { name: "boundary", inside: off < COVERAGE * Math.sqrt(edge.covariance(0, 0)), narrowed: 0 };
  return [...numbers, ...shapes, boundary];
}

describe(`intervals after a fit, over ${FLOWN} flights`, () => {
  const all: Held[][] = [];
  beforeAll(() => {
    for (let k = 0; k < FLOWN; k++) all.push(judged(k));
  });

  it("hold the truth about 95 times of 100, number by number", () => {
    const names = at(all, 0).map(({ name }) => name);
    const held = names.map((name, n) => ({ name, times: all.filter((one) => at(one, n).inside).length }));
    const least = NIGHT ? 90 : 7;
    expect(held.filter(({ times }) => times < least)).toEqual([]);
    const total = held.reduce((sum, { times }) => sum + times, 0) / (held.length * FLOWN);
    expect(total).toBeGreaterThan(NIGHT ? 0.93 : 0.9);
    if (NIGHT) expect(total).toBeLessThan(0.985);
  });

  it("are narrower than before where the flight tells", () => {
    const of = (name: string) => all.map((one) => one.find((held) => held.name === name)?.narrowed ?? 0);
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(mean(of("motor.resistance"))).toBeGreaterThan(0.2);
  });
}, 3_600_000);
