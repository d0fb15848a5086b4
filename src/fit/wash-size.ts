// Size of the bursts that a craft's own wake throws at it in a descent: what turns the body though no command did, against what
// src/kernel/wash.ts would make of a model's wash, line by line of the spectrum.
import type { Airframe } from "../airframe/airframe.js";
import { type Craft, craftUnder, STANDARD_DAY } from "../airframe/craft.js";
import { mixerOf } from "../airframe/mixer.js";
import { washShare } from "../airframe/wash.js";
import { at, numberAt } from "../base/at.js";
import { allDuties, commandShares, mixed } from "../flight/axis-commands.js";
import type { FlightLog, Stretch } from "../flight/log.js";
import { bandBins, taperedSpectrum, turnedBy, unitBursts } from "./burst-spectrum.js";
import { descentRatios } from "./descent.js";
import { type ReadNumber, within } from "./read-number.js";
import { nearestPowerOfTwo } from "./transform.js";
import { mean } from "./windows.js";

/** s: bursts come several times in it. */
const WINDOW = 0.5;
/** Share of the worst wash above which a window counts as washed, and below which as calm. */
const [WASHED, CALM] = [0.3, 0.01];
const FEWEST = 2; // washed windows
/** A command that moves by more within a window is a move of the stick, rad/s. */
const STILL = 0.05;
/** s after a move of the stick before its axis is still. */
const AFTER = 0.15;
/** How far the speed of descent may be off: it is summed from thrust. */
const RATIO_OFF = 1.25;

const AXES = ["roll", "pitch"] as const;

/** `wash.rms` and `wash.loss`. */
export function washNumbers(log: FlightLog, airframe: Airframe): ReadNumber[] {
  const loss: ReadNumber = { key: "wash.loss", value: null, why: "no gyro shows how much thrust is lost on the whole" };
  const none = (why: string): ReadNumber[] => [{ key: "wash.rms", value: null, why }, loss];
  const duties = allDuties(log);
  if (duties === null) return none("the log has no duty of every rotor, so nobody knows how it sank");
  if (AXES.every((axis) => log.rate[axis] === null || log.command[axis] === null))
    return none("no commanded rate in the log: what the sticks did cannot be told from what the wake did");
  const craft = craftUnder(airframe, STANDARD_DAY);
  const windows = log.stretches.flatMap((stretch) => windowsIn(log, craft, duties, stretch));
  const washed = windows.filter(({ share }) => share > WASHED);
  const calm = windows.filter(({ share }) => share < CALM);
  if (washed.length < FEWEST) return none("the log has no descent, or the sticks moved in all of it");
  if (calm.length < FEWEST) return none("the log has no quiet hover beside its descents");
  const rest = calm.reduce((sum, { turned }) => sum + turned, 0) / calm.length;
  const expected = washed.reduce((sum, { perSquare }) => sum + perSquare, 0);
  const square = washed.reduce((sum, { turned }) => sum + turned - rest, 0) / expected;
  if (!(square > 0)) return none("no burst stands out in the log's descents");
  // each bin's power is drawn from an exponential law; half overlapping windows share a sixth of it
  const chance = Math.sqrt(washed.reduce((sum, { spread }) => sum + spread, 0) * (7 / 6)) / expected;
  const [less, more] = [at(washed, 0).shareOff(washed, 1 / RATIO_OFF), at(washed, 0).shareOff(washed, RATIO_OFF)];
  const offRatio = Math.max(Math.abs(Math.sqrt(1 / less) - 1), Math.abs(Math.sqrt(1 / more) - 1));
  const why = `from ${washed.length} half seconds in which the throttle let it sink through its wake`;
  return [{ key: "wash.rms", value: within(Math.sqrt(square), chance, offRatio, plantShare(airframe)), why }, loss];
}

interface WashWindow {
  /** Root mean square of the share of the worst wash, 0 to 1. */
  readonly share: number;
  /** Squared angular acceleration that no command explains, in the band, (rad/s^2)^2/Hz summed over bins. */
  readonly turned: number;
  /** The same that a wash of rms 1 would leave, and the sum of its bins' squares. */
  readonly perSquare: number;
  readonly spread: number;
  /** Mean square share of several windows, were all descents so much faster, over what it is. */
  readonly shareOff: (windows: readonly WashWindow[], factor: number) => number;
  readonly ratios: Float64Array;
}

function windowsIn(log: FlightLog, craft: Craft, duties: readonly Float64Array[], stretch: Stretch): WashWindow[] {
  const length = nearestPowerOfTwo(WINDOW / log.step);
  const together = at(duties, 0).map((_, k) => mean(duties.map((duty) => numberAt(duty, k))));
  const ratios = descentRatios(log, craft, together, stretch);
  const spectrum = taperedSpectrum(length, log.step);
  const bins = bandBins(length, log.step);
  const found: WashWindow[] = [];
  for (const axis of AXES) {
    const rate = log.rate[axis];
    const wanted = log.command[axis];
    if (rate === null || wanted === null) continue;
    const command = mixed(duties, commandShares(mixerOf(craft.airframe.rotors, craft.airframe.centreOfMass), axis));
    for (let first = stretch.from; first + length <= stretch.to; first += length / 2) {
      if (moves(wanted, log.step, first, first + length)) continue;
      const own = ratios.subarray(first - stretch.from, first - stretch.from + length);
      const share = meanSquareShare(own, 1);
      const cut = (column: Float64Array) => column.subarray(first, first + length);
      const duty = mean(cut(together));
      const unexplained = turnedBy(craft, axis, duty, bins, spectrum(cut(rate)), spectrum(cut(command)));
      const unit = unitBursts(craft, axis, duty, bins).map((power) => power * share);
      found.push({
        share: Math.sqrt(share),
        turned: unexplained.reduce((sum, power) => sum + power, 0),
        perSquare: unit.reduce((sum, power) => sum + power, 0),
        spread: unit.reduce((sum, power) => sum + power * power, 0),
        shareOff,
        ratios: own,
      });
    }
  }
  return found;
}

const meanSquareShare = (ratios: Float64Array, factor: number): number =>
  mean(ratios.map((ratio) => washShare(factor * ratio) ** 2));

const shareOff = (windows: readonly WashWindow[], factor: number): number => {
  const total = (by: number) => windows.reduce((sum, { ratios }) => sum + meanSquareShare(ratios, by), 0);
  return total(factor) / total(1);
};

function moves(command: Float64Array, step: number, from: number, to: number): boolean {
  const seen = command.subarray(Math.max(0, from - Math.round(AFTER / step)), to);
  return Math.max(...seen) - Math.min(...seen) > STILL;
}

/** What the bursts do goes with ct and with the inertia, which come with their own spreads. */
const plantShare = ({ spreads = [] }: Airframe): number => {
  const ct = spreads.find(({ key }) => key === "propeller.ct");
  return ct === undefined ? 0 : ct.law === "log-normal" ? ct.size : ct.size / ct.nominal;
};
