// From flights to what they say about their model: measured, fitted, judged by the draws of a sweep.

import type { Airframe } from "../airframe/airframe.js";
import { fileOf } from "../airframe/draws.js";
import { digestOf } from "../base/digest.js";
import { fileProblem, InputError } from "../base/problem.js";
import { roundedNumbers } from "../base/rounded-numbers.js";
import { version as productVersion } from "../base/version.js";
import { readText } from "../files/read.js";
import { adviceOf, nextWords, silentParts } from "../fit/advice.js";
import { type AxisOfFit, axisOfFit, type LogOfFit } from "../fit/fit-axes.js";
import { type Fitted, fitted } from "../fit/fitted.js";
import { flightEvidence, inSi, type UnitsWorth } from "../fit/flight-evidence.js";
import { FIT_FORMAT, type FitFile, type FittedAxis, type FittedUnit } from "../fit/format.js";
import { partApart } from "../fit/kept-out.js";
import { lessons } from "../fit/next-flight.js";
import { tuneCall } from "../fit/tune-call.js";
import { fittedUnits } from "../fit/units.js";
import { unknownsOf } from "../fit/unknowns.js";
import { toDisplayD, toDisplayP } from "../map/display-units.js";
import type { Axis } from "../sweep/sweep.js";
import { type AxisBand, boundaryBands } from "./boundary-bands.js";
import { type FitInputs, type FlightOfFit, readFitInputs } from "./fit-inputs.js";
import { type FittedText, fittedModel } from "./fitted-model.js";
import { planFor } from "./plan.js";
import { readSweep, type WithDocument } from "./read.js";

export interface FitRequest {
  readonly files: readonly string[];
  /** Null: the model that the flights name. */
  readonly model: string | null;
  /** Whose draws and lines judge the model before and after. */
  readonly sweep: string;
  /** Where the new model will stand, for messages; null: nowhere. */
  readonly out: string | null;
  readonly command: string;
}

export interface FitOutcome {
  readonly file: FitFile;
  readonly model: FittedText;
}

/** Rejects with InputError: files that cannot be read or do not go together, or a fit that no craft can be. */
export async function fitFlights(request: FitRequest): Promise<FitOutcome> {
  const inputs = await readFitInputs(request.files, request.model);
  const sweep = readSweep(request.sweep);
  const loopGain = sweep.value.uncertainty?.loopGain ?? STANDARD_LOOP_GAIN;
  const units = unitsOf(inputs);
  const worth = worthOf(inputs.model.value, units);
  const unknowns = unknownsOf(inputs.model.document, loopGain);
  const logs = inputs.flights.map(({ log }) => (log === null ? null : { log, apart: partApart(log) }));
  const flights = inputs.flights.map((one, k) =>
    flightEvidence(one, inputs.model.value, worth, logs[k]?.apart ?? null),
  );
  const fit = fitted(unknowns, flights);
  const model = newModel(inputs, fit, units, request.out);
  return { file: roundedNumbers(fitFile(inputs, request, { fit, model, units, worth, sweep, logs })), model };
}

/** Where the sweep asks for no draws: as its default. */
const STANDARD_LOOP_GAIN = 0.1;

/** Of every log, those of the first that tells come first. */
const unitsOf = ({ flights, model }: FitInputs): FittedUnit[] =>
  flights.flatMap(({ log, flight }) => (log === null ? [] : fittedUnits(log, model.value, flight.gains)));

/** What the model says of the controller's own units, else what the logs tell. */
function worthOf({ controller }: Airframe, units: readonly FittedUnit[]): UnitsWorth | null {
  const of = (gain: FittedUnit["gain"]) =>
    units.find((unit) => unit.gain === gain && unit.set === "own" && unit.value !== null && unit.axes.includes("roll"))
      ?.value?.middle ?? null;
  const p = controller.scale?.p ?? of("p");
  const d = controller.scale?.d ?? of("d");
  return p === null || d === null ? null : { p, i: controller.scale?.i ?? of("i"), d };
}

function newModel(inputs: FitInputs, fit: Fitted, units: readonly FittedUnit[], out: string | null): FittedText {
  const { document, value } = inputs.model;
  const inModel = (fileOf(document).flights ?? []).map(({ title, digest, log }) => ({
    title,
    digest,
    log: log ?? null,
  }));
  const added = inputs.flights.map(({ flight, digest, logDigest }) => ({
    title: flight.title,
    digest,
    log: logDigest,
  }));
  const text = readText(inputs.modelFile, "a model");
  return fittedModel(out ?? inputs.modelFile, text, nextVersion(value.version), fit, [...inModel, ...added], units);
}

/** "r1" becomes "r1-f1", "r1-f1" becomes "r1-f2". */
export function nextVersion(version: string): string {
  const [, stem, count] = /^(.*)-f(\d+)$/.exec(version) ?? [];
  return stem === undefined ? `${version}-f1` : `${stem}-f${Number(count) + 1}`;
}

interface Parts {
  readonly fit: Fitted;
  readonly model: FittedText;
  readonly units: readonly FittedUnit[];
  readonly worth: UnitsWorth | null;
  readonly sweep: ReturnType<typeof readSweep>;
  readonly logs: readonly (LogOfFit | null)[];
}

const AXES: readonly Axis[] = ["roll", "pitch"];
const CANNOT_HOVER = "the likeliest craft by these flights cannot hover; expected flights of this craft";

function fitFile(inputs: FitInputs, request: FitRequest, { fit, model, units, worth, sweep, logs }: Parts): FitFile {
  const bands = bandsOf(inputs.model, model.model, sweep);
  const confidence = sweep.value.uncertainty?.confidence ?? 0.95;
  const axes = Object.fromEntries(
    AXES.map((axis) => {
      const shown = axisOfFit(fit, axis, logs);
      if (shown === null) throw new InputError([fileProblem(inputs.modelFile, CANNOT_HOVER)]);
      return [axis, fittedAxis(axis, inputs.flights, shown, bands, worth, confidence)];
    }),
  ) as Record<Axis, FittedAxis>;
  const { name, version } = inputs.model.value;
  const found = lessons(fit, AXES, [0.6]);
  return {
    format: FIT_FORMAT,
    productVersion: productVersion(),
    model: { name, version, digest: digestOf(inputs.model.value) },
    flights: inputs.flights.map(({ file, flight, digest }) => ({
      file,
      title: flight.title,
      date: flight.date,
      digest,
    })),
    numbers: fit.numbers,
    correlations: correlationsOf(fit),
    axes,
    units,
    silent: silentParts(fit, inputs.flights, worth),
    remarks: inputs.flights.flatMap(({ log }) => log?.remarks ?? []),
    next: nextWords(found, axes, confidence),
    advice: adviceOf(fit, axes, inputs.model.value, units),
    command: request.command,
  };
}

interface Bands {
  readonly before: Readonly<Record<Axis, AxisBand>> | null;
  readonly after: Readonly<Record<Axis, AxisBand>> | null;
}

/** On the lines of the new model's own sweep. */
function bandsOf(before: WithDocument<Airframe>, after: WithDocument<Airframe>, sweep: Parts["sweep"]): Bands {
  const plan = planFor(after, sweep);
  return {
    before: boundaryBands(planFor(before, sweep, { grid: plan.sweep.grid }), before),
    after: boundaryBands(plan, after),
  };
}

function fittedAxis(
  axis: Axis,
  flights: readonly FlightOfFit[],
  shown: AxisOfFit,
  bands: Bands,
  worth: UnitsWorth | null,
  confidence: number,
): FittedAxis {
  const [before, after] = [bands.before?.[axis], bands.after?.[axis]];
  const band = { before: before?.band ?? [], after: after?.band ?? [] };
  const set = flights.map(({ flight }) => flight.gains[axis]).find((gains) => gains !== undefined);
  const gains = set === undefined ? null : inSi(set, worth);
  const base = {
    ...shown,
    band,
  };
  if (set === undefined || gains === null || before === undefined || after === undefined)
    return { ...base, tune: null };
  const judged = {
    p: toDisplayP(gains.p),
    d: toDisplayD(gains.d),
    ...(set.own ? { own: { p: set.p, d: set.d } } : {}),
    safeShareBefore: before.safeShare(gains),
    safeShareAfter: after.safeShare(gains),
    draws: after.judging,
  };
  return { ...base, tune: { ...judged, call: tuneCall(judged, band, confidence) } };
}

const WORTH_TELLING = 0.3;

function correlationsOf({ unknowns: { spreads }, correlations }: Fitted): FitFile["correlations"] {
  const pairs = spreads.flatMap(({ key: other }, j) =>
    spreads.slice(0, j).map(({ key: one }, i) => ({ one, other, value: correlations.get(i, j) })),
  );
  return pairs
    .filter(({ value }) => Math.abs(value) >= WORTH_TELLING)
    .sort((a, b) => Math.abs(b.value) - Math.abs(a.value));
}
