// The weakest P that holds an axis calmly where it needs no I: far from its limits, so that it does not affect what is measured.

import type { Craft } from "../airframe/craft.js";
import { dutySlope } from "../airframe/duty.js";
import { chainDelay } from "../airframe/filter.js";
import { gainFactorsAt } from "../airframe/gain-schedule.js";
import { speedTimeConstant } from "../airframe/motor.js";
import { gyroChainAt } from "../airframe/moving-filter.js";
import { rotorCommands, type Trim } from "../airframe/powered.js";
import { at } from "../base/at.js";
import type { Axis } from "../sweep/sweep.js";

/** P (fraction per (rad/s)) that holds an axis without I, and the loop's lag (s) that it was chosen for. */
export interface SoftHold {
  readonly p: number;
  readonly lag: number;
}

/**
 * P of a critically damped loop K/(s(tau s + 1)) in hover, P = 1/(4 K (tau + L)), with the loop's delays L taken as
 * lag. Textbook second-order algebra, without I.
 */
export function softHold(craft: Craft, hover: Trim, axis: Axis): SoftHold {
  const { motor, controller } = craft.airframe;
  const rotors = speedTimeConstant(motor, craft.rotorInertia, craft.torqueStatic, at(hover.speeds, 0));
  const { rate, latency } = controller;
  const delay = latency + 0.5 / rate + chainDelay(gyroChainAt(craft.airframe, hover), craft.airframe);
  const lag = rotors + delay;
  const scheduled = gainFactorsAt(craft.airframe, hover.throttle).p;
  return { p: 1 / (4 * authority(craft, hover, axis) * lag) / scheduled, lag };
}

/** Steady angular acceleration per unit of command, rad/s^2, in hover. */
function authority(craft: Craft, hover: Trim, axis: Axis): number {
  const { constant, resistance } = craft.airframe.motor;
  const commands = rotorCommands(craft, hover);
  let torque = 0;
  craft.arms.forEach(([x, y], i) => {
    const speed = at(hover.speeds, i);
    const speedPerVolt = constant / resistance / ((constant * constant) / resistance + 2 * craft.torqueStatic * speed);
    const dutyPerCommand = dutySlope(craft.airframe, at(commands, i), hover.volts);
    const thrustPerDuty = 2 * craft.thrustStatic * speed * speedPerVolt * hover.volts * dutyPerCommand;
    torque +=
      axis === "roll" ? y * at(craft.mixer.roll, i) * thrustPerDuty : -x * at(craft.mixer.pitch, i) * thrustPerDuty;
  });
  return torque / (axis === "roll" ? craft.inertia.xx : craft.inertia.yy);
}
