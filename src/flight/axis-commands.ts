// What the controller asked of each axis, from what it wrote to the rotors: the mixer turned round.
import { Matrix, pseudoInverse } from "ml-matrix";
import type { Mixer } from "../airframe/mixer.js";
import { at, numberAt } from "../base/at.js";
import { type FlightLog, LOG_AXES, type LogAxis } from "./log.js";

/**
 * The axis command per unit of each rotor's duty, by least squares: duties are one collective plus the mixer's columns times
 * the commands. A duty at its limit counts with what it was, which is what the rotors got.
 */
export function commandShares(mixer: Mixer, axis: LogAxis): readonly number[] {
  const columns = [mixer.roll.map(() => 1), ...LOG_AXES.map((name) => [...mixer[name]])];
  const inverse = pseudoInverse(new Matrix(columns).transpose());
  return inverse.getRow(1 + LOG_AXES.indexOf(axis)).map(clean);
}

/** Twelve decimals, as the mixer's own entries: the decomposition's rounding stays out. */
const clean = (value: number): number => Math.round(value * 1e12) / 1e12 + 0;

/** Every rotor's duty; null where the log lacks one: the commands cannot be told apart without it. */
export function allDuties({ duty }: Pick<FlightLog, "duty">): readonly Float64Array[] | null {
  const duties = duty.filter((channel) => channel !== null);
  return duties.length === duty.length && duties.length > 0 ? duties : null;
}

/** The sum of channels, each times its share. */
export function mixed(channels: readonly Float64Array[], shares: readonly number[]): Float64Array {
  return at(channels, 0).map((_, n) =>
    channels.reduce((sum, channel, c) => sum + at(shares, c) * numberAt(channel, n), 0),
  );
}

/** One axis command of one row. */
export function commandAt(duties: readonly Float64Array[], shares: readonly number[], row: number): number {
  let sum = 0;
  for (let rotor = 0; rotor < duties.length; rotor++) sum += at(shares, rotor) * numberAt(at(duties, rotor), row);
  return sum;
}
