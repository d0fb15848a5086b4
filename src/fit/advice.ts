// What to do after a fit, in words: which tunes end, what to fly next, what the flights could not tell.
import type { Airframe } from "../airframe/airframe.js";
import { parameterTitle } from "../base/parameter-titles.js";
import type { Flight } from "../flight/flight.js";
import type { FlightLog } from "../flight/log.js";
import type { Fitted } from "./fitted.js";
import type { UnitsWorth } from "./flight-evidence.js";
import type { FitFile, FittedAxis, FittedUnit } from "./format.js";
import type { Lesson } from "./next-flight.js";
import { isLower } from "./tune-call.js";

type Axes = FitFile["axes"];

const EACH = ["roll", "pitch"] as const;
/** Standard deviations of before, from which on the model's own spread is in doubt. */
const FAR = 3;

/** Lines for whoever flew: the tune that was flown first. */
export function adviceOf(
  fit: Fitted,
  axes: Axes,
  { name, version, controller: { scale } }: Pick<Airframe, "name" | "version" | "controller">,
  units: readonly FittedUnit[],
): string[] {
  const ended = EACH.filter((axis) => axes[axis].tune?.call === "do not fly");
  const lower = EACH.filter((axis) => isLower(axes[axis].band, judgedAt(axes[axis])));
  const old = `${name} ${version}`;
  const again = "Sweep the new version, print its card, and start its ladder from the first step.";
  const lines = [
    ...unitFaults(scale, units),
    ...ended.map(
      (axis) =>
        `Do not fly the ${axis} tune of this flight any more: the boundary lies lower, or the tune is safe in fewer draws, than ${old} said.`,
    ),
    ...(lower.length > 0
      ? [
          `On ${lower.join(" and ")} a sustained oscillation begins at less P than ${old} said: cards and tunes made from it end here. ${again}`,
        ]
      : ended.length > 0
        ? [again]
        : [`What was safe with ${old} is no less safe now; sweep the new version before you go further up.`]),
    ...fit.setAside.map(({ response: { axis }, turned }) =>
      turned
        ? `The ${axis} response goes the other way from the model's: check the sign of its column and the order of the motors. Nothing was taken from it.`
        : `The ${axis} response is not that of any craft within the model's spreads: check units, motors and gains. Nothing was taken from it.`,
    ),
  ];
  const far = fit.unknowns.spreads.filter((_, k) => Math.abs(fit.scores[k]?.mean ?? 0) > FAR).map(({ key }) => key);
  return far.length === 0
    ? lines
    : [
        ...lines,
        `Beyond the spread that the model gave: ${far.join(", ")}. Measure it, or something that was taken as exact is not.`,
      ];
}

/** By so much a unit may differ from what the model says before numbers on cards mislead. Ours, no source. */
const SAME_UNIT = 0.05;

/** Where the log contradicts what the model says one unit is worth: every number in the controller's own units is off then. */
function unitFaults(scale: Airframe["controller"]["scale"], units: readonly FittedUnit[]): string[] {
  if (scale === null) return [];
  return units.flatMap(({ gain, set, value, axes }) => {
    const written = scale[gain];
    if (set !== "own" || value === null || written === undefined || !axes.some((axis) => axis !== "yaw")) return [];
    const agrees = value.low < (1 + SAME_UNIT) * written && value.high > (1 - SAME_UNIT) * written;
    return agrees
      ? []
      : [
          `By the log one unit of ${gain.toUpperCase()} is worth ${figure(value.middle / written)} times what controller.one_unit says: do not set the controller's own numbers from any card of this model. Mend the model, or the gains in the flight file.`,
        ];
  });
}

/** D of the tune that was flown, else the middle one. */
const judgedAt = ({ tune, band: { after } }: FittedAxis): number =>
  tune?.d ?? after[Math.floor(after.length / 2)]?.d ?? 0;

const LEAST_NARROWS = 0.1;
const MOST = 3;

/** Only at gains that hold in enough draws, and never an oscillation that is kept up. */
export function nextWords(lessons: readonly Lesson[], axes: Axes, confidence: number): FitFile["next"] {
  const telling = lessons.filter(({ narrows }) => narrows >= LEAST_NARROWS);
  const each = telling.filter(({ key }, k) => telling.findIndex((one) => one.key === key) === k);
  return each.slice(0, MOST).map(({ axis, throttle, key, narrows }) => {
    const tune = axis === "yaw" ? null : axes[axis].tune;
    const own = tune?.own ?? null;
    const safe = tune !== null && tune.safeShareAfter >= confidence && tune.call !== "do not fly";
    const gains = safe
      ? `at the gains of this flight (P ${figure(own?.p ?? tune.p)}, D ${figure(own?.d ?? tune.d)})`
      : "at the gains of the last step of the new card's ladder that you have finished";
    const where = throttle === null ? "around hover" : `at ${Math.round(100 * throttle)} % throttle`;
    const text = `Ten seconds of quick ${axis} moves ${where}, ${gains}, ${throttle === null ? "" : "high and "}clear of everybody, would narrow the spread of the ${parameterTitle(key)} by some ${Math.round(100 * narrows)} %.`;
    return { text, key, narrows };
  });
}

const figure = (value: number): string => String(Number(value.toPrecision(3)));

interface FlightWithLog {
  readonly flight: Flight;
  readonly log: FlightLog | null;
}

/** What the flights could not tell, and why. */
export function silentParts(
  fit: Fitted,
  flights: readonly FlightWithLog[],
  worth: UnitsWorth | null,
): FitFile["silent"] {
  const logs = flights.flatMap(({ log }) => (log === null ? [] : [log]));
  const quiet = EACH.filter(
    (axis) =>
      !fit.evidence.responses.some((one) => one.axis === axis) &&
      !fit.setAside.some(({ response }) => response.axis === axis),
  );
  const sightings = flights.flatMap(({ flight }) => flight.sightings);
  const untold = sightings.filter((one) => one.kind === "oscillation" && one.gains.own && worth === null).length;
  const warmth = sightings.some((one) => one.kind === "oscillation" && one.motors !== null);
  const still = fit.unknowns.spreads.filter((_, k) => fit.scores[k]?.deviation === 1).map(({ key }) => key);
  return [
    ...(logs.length > 0 ? quiet.map((axis) => ({ what: `${axis} response`, why: whyQuiet(logs, axis) })) : []),
    ...(untold > 0
      ? [
          {
            what: `${untold} ${untold === 1 ? "sighting" : "sightings"} in the controller's own numbers`,
            why: "nobody knows what they are worth: neither the model's controller.one_unit nor a log tells",
          },
        ]
      : []),
    ...(warmth ? [{ what: "how warm the motors were", why: "theory knows no warmth" }] : []),
    ...(still.some((key) => key.startsWith("frame.") || key === "propeller.ct")
      ? [{ what: "mass and thrust apart", why: "a log tells their ratio; a kitchen scale tells the mass" }]
      : []),
    ...(still.length > 0 ? [{ what: `${still.length} numbers that keep their spread`, why: still.join(", ") }] : []),
  ];
}

function whyQuiet(logs: readonly FlightLog[], axis: "roll" | "pitch"): string {
  if (logs.every((log) => log.rate[axis] === null)) return "its rate was not logged";
  if (logs.every((log) => log.duty.some((one) => one === null))) return "not every motor's output was logged";
  return "the log is too quiet or too short there: quick moves of ten seconds would tell";
}
