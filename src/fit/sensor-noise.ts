// The gyro's noise and the rotors' lines in it, read from the spectrum of the logged rates: what src/kernel/sensor-error.ts and
// vibration.ts make of the model's numbers, backwards.
import type { Airframe } from "../airframe/airframe.js";
import { at, numberAt } from "../base/at.js";
import type { FlightLog } from "../flight/log.js";
import { meanPower, type PowerSpectra, type PowerWindow, powerSpectra } from "./power.js";
import { meanWithHalf, type ReadNumber, within } from "./read-number.js";
import {
  allBins,
  folded,
  hoverSpeeds,
  lineBins,
  MOVES,
  meet,
  powerAbove,
  ratioToHover,
  type Speeds,
  speedFactor,
  speedsIn,
} from "./rotor-lines.js";
import { mean } from "./windows.js";

/** Share of half the log's rate up to which its filters, if it has any, are taken to leave the floor alone. */
const TOP = 0.95;
/** Standard deviation of the mean duty within a window, up to which its rotors turn steadily. */
const STEADY = 0.012;
const FEWEST = 4; // windows
/** Standard deviations of a bin above the median beyond which it is no noise. */
const STRANGE = 5;
/** Rounding of the logger, a gyro's own unevenness: no floor is known better. */
const FLOOR_SHARE = 0.03;

interface Heard {
  readonly spectra: PowerSpectra;
  readonly steady: readonly PowerWindow[];
  readonly speedsOf: (window: PowerWindow) => Speeds;
  readonly hover: Speeds;
  /** (rad/s)^2/Hz of each axis. */
  readonly floor: readonly number[];
}

const SHORT = "the log has no four seconds with steady throttle";

/** `sensing.noise` and `sensing.vibration[k].at_hover` for each line of the model. */
export function sensorNumbers(log: FlightLog, airframe: Airframe): ReadNumber[] {
  const keys = ["sensing.noise", ...airframe.sensing.vibration.map((_, k) => `sensing.vibration[${k}].at_hover`)];
  const heard = listen(log, airframe);
  if (typeof heard === "string") return keys.map((key) => ({ key, value: null, why: heard }));
  return [noiseOf(heard, airframe), ...airframe.sensing.vibration.map((_, k) => lineOf(heard, airframe, k))];
}

function listen(log: FlightLog, airframe: Airframe): Heard | string {
  const spectra = powerSpectra(log);
  const model = hoverSpeeds(airframe);
  const steady = spectra.windows.filter(({ unrest }) => unrest < STEADY);
  if (model === null || steady.length < FEWEST) return SHORT;
  if (at(steady, 0).power.length === 0) return "no body rate in the log";
  if (spectra.rate / 2 < 1.5 * MOVES)
    return `${Math.round(spectra.rate)} rows a second show no noise apart from motion`;
  const byModel = (window: PowerWindow) => speedsIn(window, model.craft) ?? model.speeds;
  const harmonics = airframe.sensing.vibration.map(({ harmonic }) => harmonic);
  const factor = speedFactor(spectra, steady, byModel, harmonics);
  const speedsOf = (window: PowerWindow) => byModel(window).map((speed) => factor * speed);
  const floor = at(steady, 0).power.map((_, axis) => floorOf(spectra, steady, speedsOf, harmonics, axis));
  return { spectra, steady, speedsOf, hover: model.speeds, floor };
}

/** Mean of the bins above motion and beside all lines, without those that stand out as noise does not. */
function floorOf(
  spectra: PowerSpectra,
  windows: readonly PowerWindow[],
  speedsOf: (window: PowerWindow) => Speeds,
  harmonics: readonly number[],
  axis: number,
): number {
  const power = meanPower(windows, axis);
  const lines = new Set(windows.flatMap((window) => [...allBins(spectra, window, speedsOf, harmonics)]));
  const lowest = Math.ceil(Math.max(MOVES, spectra.rate / 5) / spectra.spacing);
  const highest = Math.floor((TOP * spectra.rate) / 2 / spectra.spacing);
  const bins = Array.from({ length: highest - lowest }, (_, k) => lowest + k);
  const beside = bins.filter((bin) => !lines.has(bin));
  const used = (beside.length > bins.length / 10 ? beside : bins).map((bin) => numberAt(power, bin));
  const sorted = [...used].sort((one, other) => one - other);
  // Half overlapping windows of Hann's taper are worth about two thirds of their number (Welch 1967; from memory).
  const independent = Math.max(1, (2 * windows.length) / 3);
  const strange = at(sorted, Math.floor(sorted.length / 2)) * (1 + STRANGE / Math.sqrt(independent));
  return mean(used.filter((value) => value < strange));
}

/** In the loop every period has noise of its own; a slower log shows all of its power in a narrower band. */
function noiseOf({ spectra, steady, speedsOf, floor }: Heard, airframe: Airframe): ReadNumber {
  const { rate } = airframe.controller;
  const share = Math.min(1, spectra.rate / rate);
  const harmonics = airframe.sensing.vibration.map(({ harmonic }) => harmonic);
  const parts = Array.from({ length: FEWEST }, (_, part) =>
    steady.filter((__, k) => Math.floor((k * FEWEST) / steady.length) === part),
  );
  const each = parts.flatMap((windows) => floor.map((_, axis) => floorOf(spectra, windows, speedsOf, harmonics, axis)));
  const { half } = meanWithHalf(each, each.length);
  const level = mean(floor);
  const density = Math.sqrt(level * share);
  const why =
    share < 0.98
      ? `taking it that the log keeps single samples of a gyro read ${rate} times a second; had they been averaged, it would be ${(1 / Math.sqrt(share)).toFixed(1)} times as much`
      : "";
  // of a density, half of what its square is off
  return { key: "sensing.noise", value: within(density, half / level / 2, FLOOR_SHARE), why };
}

function lineOf({ spectra, steady, speedsOf, hover, floor }: Heard, airframe: Airframe, line: number): ReadNumber {
  const key = `sensing.vibration[${line}].at_hover`;
  const { harmonic } = at(airframe.sensing.vibration, line);
  const others = airframe.sensing.vibration.filter((_, k) => k !== line).map((one) => one.harmonic);
  const values: number[] = [];
  let clear = 0;
  for (const window of steady) {
    const speeds = speedsOf(window);
    const bins = lineBins(spectra, speeds, harmonic);
    const lowest = Math.min(...bins) * spectra.spacing;
    if (lowest < MOVES || meet(bins, allBins(spectra, window, speedsOf, others))) continue;
    clear++;
    for (const [axis, power] of window.power.entries())
      values.push((2 * powerAbove(power, at(floor, axis), bins, spectra.spacing)) / ratioToHover(speeds, hover));
  }
  const middle = (harmonic * mean(hover)) / 2 / Math.PI;
  const shown = folded(middle, spectra.rate);
  const place = `${Math.round(middle)} Hz in hover${Math.abs(shown - middle) < 1 ? "" : `, folded to ${Math.round(shown)} Hz`}`;
  if (clear < FEWEST)
    return { key, value: null, why: `${place}: too near to motion or another line in most of the log` };
  // half overlapping windows: every other one is new
  const { mean: square, half } = meanWithHalf(values, values.length / 2);
  if (square <= half) {
    const most = Math.sqrt(Math.max(0, square) + half);
    return {
      key,
      value: { middle: Math.sqrt(Math.max(0, square)), low: 0, high: most },
      why: `${place}: not seen above the noise`,
    };
  }
  return { key, value: within(Math.sqrt(square), half / square / 2, hoverShare(airframe)), why: place };
}

/** Hover speed follows from the weight and ct, and lines grow with its square. */
const hoverShare = ({ spreads = [] }: Airframe): number => {
  const ct = spreads.find(({ key }) => key === "propeller.ct");
  return ct === undefined ? 0 : ct.law === "log-normal" ? ct.size : ct.size / ct.nominal;
};
