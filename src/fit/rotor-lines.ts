// Where the rotors' lines stand in a log's spectrum: at harmonics of their speeds, folded where the log is too slow for them.
import type { Airframe } from "../airframe/airframe.js";
import { type Craft, craftUnder, STANDARD_DAY } from "../airframe/craft.js";
import { steadySpeed } from "../airframe/motor.js";
import { hoverTrim, trimAt } from "../airframe/trim.js";
import { at, numberAt } from "../base/at.js";
import type { PowerSpectra, PowerWindow } from "./power.js";
import { mean } from "./windows.js";

/** Hz: below it a craft moves; above it the lag of its motors keeps it still. Common practice for small craft, no source. */
export const MOVES = 80;

/** Speeds (rad/s) of all rotors in one window. */
export type Speeds = readonly number[];

/** Lines of one rotor lie within this share of its speed: it changes, and a window is short. */
const BESIDE = 0.03;
/** Bins on either side that the taper spreads a line over. */
const SPREAD_BINS = 2;

/** As they were logged; else what the model makes of duty and voltage. Null where neither is there. */
export function speedsIn({ duty, speed, voltage }: PowerWindow, craft: Craft): Speeds | null {
  const logged = speed.filter((one) => one !== null);
  if (logged.length === craft.arms.length) return logged;
  const duties = duty.filter((one) => one !== null);
  if (duties.length < craft.arms.length) return null;
  const volts = voltage ?? trimAt(craft, mean(duties)).volts;
  return duties.map((one) => steadySpeed(one * volts, craft.airframe.motor, craft.torqueStatic));
}

/** Speeds in hover, by the model. */
export function hoverSpeeds(airframe: Airframe): { readonly craft: Craft; readonly speeds: Speeds } | null {
  const craft = craftUnder(airframe, STANDARD_DAY);
  const hover = hoverTrim(craft);
  return hover === null ? null : { craft, speeds: hover.speeds };
}

/** Bins in which lines of this harmonic may stand. */
export function lineBins(
  { rate, spacing }: Pick<PowerSpectra, "rate" | "spacing">,
  speeds: Speeds,
  harmonic: number,
  share = BESIDE,
): Set<number> {
  const bins = new Set<number>();
  for (const speed of speeds) {
    const middle = (harmonic * speed) / 2 / Math.PI;
    const beside = share * middle + SPREAD_BINS * spacing;
    for (let f = middle - beside; f <= middle + beside; f += spacing / 2)
      bins.add(Math.round(folded(f, rate) / spacing));
  }
  return bins;
}

/** The frequency at which rows so many a second show one. */
export function folded(frequency: number, rate: number): number {
  const rest = frequency - rate * Math.floor(frequency / rate);
  return rest > rate / 2 ? rate - rest : rest;
}

/** Power above a floor in these bins, (rad/s)^2. */
export const powerAbove = (power: Float64Array, floor: number, bins: ReadonlySet<number>, spacing: number): number =>
  [...bins].reduce((sum, bin) => sum + (bin < power.length ? (numberAt(power, bin) - floor) * spacing : 0), 0);

const FARTHEST = 0.12;
const TRIES = 49;
/** As BESIDE, while the speed is searched: the narrower, the sharper. */
const CLOSE = 0.005;

/**
 * By what factor the rotors turn faster than `speedsOf` says: where most of the power stands in the lines of these harmonics. 1
 * where the speeds were logged.
 */
export function speedFactor(
  spectra: PowerSpectra,
  windows: readonly PowerWindow[],
  speedsOf: (window: PowerWindow) => Speeds,
  harmonics: readonly number[],
): number {
  if (windows.every(({ speed }) => speed.every((one) => one !== null))) return 1;
  let [best, most] = [1, Number.NEGATIVE_INFINITY];
  const floors = windows.map(({ power }) => power.map(medianOf));
  for (let k = 0; k < TRIES; k++) {
    const factor = 1 + FARTHEST * ((2 * k) / (TRIES - 1) - 1);
    let power = 0;
    for (const [w, window] of windows.entries()) {
      const speeds = speedsOf(window).map((speed) => factor * speed);
      // together, so that lines which fall on each other count once
      const lines = harmonics.flatMap((harmonic) => [...lineBins(spectra, speeds, harmonic, CLOSE)]);
      const bins = new Set(lines.filter((bin) => bin * spectra.spacing > MOVES));
      for (const [axis, one] of window.power.entries())
        power += powerAbove(one, at(at(floors, w), axis), bins, spectra.spacing);
    }
    if (power > most) [best, most] = [factor, power];
  }
  return best;
}

const medianOf = (values: Float64Array): number => {
  const sorted = [...values].sort((one, other) => one - other);
  return at(sorted, Math.floor(sorted.length / 2));
};

export const allBins = (
  spectra: PowerSpectra,
  window: PowerWindow,
  speedsOf: (window: PowerWindow) => Speeds,
  harmonics: readonly number[],
): Set<number> => new Set(harmonics.flatMap((harmonic) => [...lineBins(spectra, speedsOf(window), harmonic)]));

/** Whether two sets have a bin in common. */
export const meet = (one: ReadonlySet<number>, other: ReadonlySet<number>): boolean =>
  [...one].some((bin) => other.has(bin));

export const ratioToHover = (speeds: Speeds, hover: Speeds): number =>
  speeds.reduce((sum, speed, k) => sum + (speed / at(hover, k)) ** 4, 0);
