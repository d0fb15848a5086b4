// What the controller asked of each axis, from what it wrote to the rotors: the mixer turned round.
import { Matrix, pseudoInverse } from "ml-matrix";
import type { Airframe } from "../airframe/airframe.js";
import { mixerOf } from "../airframe/mixer.js";
import { at, numberAt } from "../base/at.js";
import { type FlightLog, LOG_AXES, type LogAxis } from "./log.js";

export type CommandShares = Readonly<Record<LogAxis, readonly number[]>>;

/** Each axis command per unit of each rotor's duty, by least squares: duties are one collective plus the mixer's columns times the commands. */
export function commandShares({ rotors, centreOfMass }: Airframe): CommandShares {
  const mixer = mixerOf(rotors, centreOfMass);
  const forth = new Matrix([rotors.map(() => 1), ...LOG_AXES.map((axis) => [...mixer[axis]])]).transpose();
  const [, roll = [], pitch = [], yaw = []] = pseudoInverse(forth).to2DArray();
  return { roll, pitch, yaw };
}

/** Every rotor's duty; null where the log lacks one: the commands cannot be told apart without it. */
export function allDuties({ duty }: Pick<FlightLog, "duty">): readonly Float64Array[] | null {
  const logged = duty.filter((channel) => channel !== null);
  return logged.length === duty.length && logged.length > 0 ? logged : null;
}

/** One axis command of one row. */
export function commandAt(duties: readonly Float64Array[], shares: readonly number[], row: number): number {
  let sum = 0;
  for (let rotor = 0; rotor < duties.length; rotor++) sum += at(shares, rotor) * numberAt(at(duties, rotor), row);
  return sum;
}
