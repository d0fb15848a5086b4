// The axis controllers in one control period: sense and command. P and I on the error, D on the measured rate; yaw has no D.
import {
  type Index,
  maximum,
  minimum,
  type Uniform,
  type UniformMemory,
  type Varying,
  type VaryingMemory,
} from "../base/lane-numbers.js";
import * as m from "./memory.js";
import { throughMovingStages, throughStages } from "./stages.js";

/**
 * Sets the command of every axis (fraction) from its rate `p`, `q` and `r` (rad/s). The integral waits where the mixer has not
 * served the whole demand of the period before: where `served` is 0. `now` is the period's place in the drive,
 * `integralFloor` the limit of the integral's share, negative.
 */
export function senseAndCommand(
  craft: UniformMemory,
  drive: UniformMemory,
  state: VaryingMemory,
  p: Varying,
  q: Varying,
  r: Varying,
  served: Varying,
  integralFloor: Uniform,
  rotors: Index,
  sensorStages: Index,
  derivativeStages: Index,
  movingSensorStages: Index,
  movingDerivativeStages: Index,
  extended: Index,
  coupled: Index,
  axis: Index,
  now: Index,
): void {
  const sensorTable: Index = m.CRAFT_SIZE + rotors * m.ROTOR_WIDTH;
  const derivativeTable: Index = sensorTable + sensorStages * m.STAGE_WIDTH;
  const sensorMemory: Index = m.STATE_SIZE + 3 * rotors;
  const derivativeMemory: Index = sensorMemory + 6 * sensorStages;
  const extension: Index = now + m.DRIVE_BASE + rotors;
  if (extended > 0)
    for (let g: Index = 0; g < 3; g++)
      for (let a: Index = 0; a < 3; a++)
        state[m.P_NOW + 3 * g + a] = state[m.P_GAIN + 3 * g + a] * drive[extension + m.FACTORS + g];
  for (let a: Index = 0; a < 3; a++) {
    const sensed: Varying = (a === 0 ? p : a === 1 ? q : r) + drive[now + m.NOISE + a];
    let y: Varying = throughStages(
      craft,
      state,
      sensed,
      sensorTable,
      sensorMemory + a * 2 * sensorStages,
      sensorStages,
    );
    if (extended > 0)
      y = throughMovingStages(
        drive,
        state,
        y,
        extension + m.EXTENSION,
        derivativeMemory + 4 * derivativeStages + a * 2 * movingSensorStages,
        movingSensorStages,
      );
    const error: Varying = drive[now + m.COMMAND + a] - y;
    const unlimited: Varying = state[m.INTEGRAL + a] + state[m.I_NOW + a] * (served * error);
    const integral: Varying = maximum(integralFloor, minimum(craft[m.INTEGRAL_LIMIT], unlimited));
    state[m.INTEGRAL + a] = integral;
    state[m.AXIS_COMMAND + a] = state[m.P_NOW + a] * error + integral;
    if (extended > 0) state[m.AXIS_COMMAND + a] += drive[extension + m.FEED_FORWARD + a];
    if (a === 2) break;
    const hasD: Index = a === axis ? 1 : coupled;
    if (hasD > 0) {
      const change: Varying = y - state[m.FILTERED + a];
      state[m.FILTERED + a] = y;
      let slope: Varying = throughStages(
        craft,
        state,
        change,
        derivativeTable,
        derivativeMemory + a * 2 * derivativeStages,
        derivativeStages,
      );
      if (extended > 0)
        slope = throughMovingStages(
          drive,
          state,
          slope,
          extension + m.EXTENSION + movingSensorStages * m.MOVING_WIDTH,
          derivativeMemory + 4 * derivativeStages + 6 * movingSensorStages + a * 2 * movingDerivativeStages,
          movingDerivativeStages,
        );
      state[m.AXIS_COMMAND + a] -= state[m.D_NOW + a] * slope;
    }
  }
}
