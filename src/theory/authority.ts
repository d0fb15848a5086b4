// What a steady command is worth on each axis once the motors have followed it: the loop gain without its lags.
import { solve } from "ml-matrix";
import type { Craft } from "../airframe/craft.js";
import type { Trim } from "../airframe/powered.js";
import { linearPlant } from "./linear.js";
import { AXES, type AxisName, dutyPerCommand } from "./plant.js";

/**
 * Angular acceleration, rad/s^2, per unit of the axis's own command, after the rotors have settled and before the body
 * turns. To first order; holds while no duty limit is met and every rotor turns.
 */
export function authorityAt(craft: Craft, trim: Trim): Readonly<Record<AxisName, number>> {
  const rotors = craft.arms.length;
  const { a, b } = linearPlant(craft, trim);
  const driven = b.mmul(dutyPerCommand(craft, trim));
  const ownSlopes = a.subMatrix(0, rotors - 1, 0, rotors - 1);
  const speeds = solve(ownSlopes, driven.subMatrix(0, rotors - 1, 0, AXES.length - 1)).mul(-1);
  const body = a.subMatrix(rotors, rotors + 2, 0, rotors - 1).mmul(speeds);
  const at = (k: number) => body.get(k, k) + driven.get(rotors + k, k);
  return { roll: at(0), pitch: at(1), yaw: at(2) };
}
