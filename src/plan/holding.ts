// The gains that hold the axis not under test: enough to keep it still, far from its own limits.
import type { AxisGains } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { lowPassDelay } from "../airframe/filter.js";
import { speedTimeConstant } from "../airframe/motor.js";
import type { Trim } from "../airframe/trim.js";
import type { Axis } from "../sweep/sweep.js";

/**
 * P of a critically damped loop K/(s(tau s + 1)) in hover, P = 1/(4 K (tau + L)), with the loop's delays
 * L taken as lag; the model's own P and D where it declares them. Textbook second-order algebra.
 */
export function holdingGains(craft: Craft, hover: Trim, axis: Axis): AxisGains {
  const { airframe } = craft;
  const declared = airframe.controller[axis];
  const speed = hover.speeds[0];
  const lag = speedTimeConstant(airframe.motor, craft.rotorInertia, craft.torqueStatic, speed);
  const { rate, latency } = airframe.controller;
  const filters = airframe.sensing.lowPass.reduce((sum, stage) => sum + lowPassDelay(stage, rate), 0);
  const delay = latency + 0.5 / rate + filters;
  return {
    p: declared.p ?? 1 / (4 * authority(craft, hover, axis) * (lag + delay)),
    i: declared.i,
    d: declared.d ?? 0,
  };
}

/** Steady angular acceleration per unit of command, rad/s^2, in hover. */
function authority(craft: Craft, hover: Trim, axis: Axis): number {
  const { constant, resistance } = craft.airframe.motor;
  let torque = 0;
  craft.arms.forEach(([x, y], i) => {
    const speed = hover.speeds[i];
    const speedPerVolt = constant / resistance / ((constant * constant) / resistance + 2 * craft.torqueStatic * speed);
    const thrustPerDuty = 2 * craft.thrustStatic * speed * speedPerVolt * hover.volts;
    torque += axis === "roll" ? y * craft.mixer.roll[i] * thrustPerDuty : -x * craft.mixer.pitch[i] * thrustPerDuty;
  });
  return torque / (axis === "roll" ? craft.inertia.xx : craft.inertia.yy);
}
