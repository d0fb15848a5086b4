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
  const movingSensorMemory: Index = derivativeMemory + 4 * derivativeStages;
  const movingDerivativeMemory: Index = movingSensorMemory + 6 * movingSensorStages;
  const extension: Index = now + m.DRIVE_BASE + rotors;
  const movingSensorTable: Index = extension + m.EXTENSION;
  const movingDerivativeTable: Index = movingSensorTable + movingSensorStages * m.MOVING_WIDTH;
  for (let a: Index = 0; a < 3; a++)
    state[m.GYRO_RATE + a] = (a === 0 ? p : a === 1 ? q : r) + drive[now + m.NOISE + a];
  throughStages(craft, state, m.GYRO_RATE, 0, 3, 3, sensorTable, sensorMemory, sensorStages);
  if (extended > 0)
    throughMovingStages(drive, state, m.GYRO_RATE, 0, 3, 3, movingSensorTable, movingSensorMemory, movingSensorStages);
  let integralFactor: Varying = served;
  if (extended > 0) integralFactor = served * drive[extension + m.FACTORS + 1];
  for (let a: Index = 0; a < 3; a++) {
    const error: Varying = drive[now + m.COMMAND + a] - state[m.GYRO_RATE + a];
    const unlimited: Varying = state[m.INTEGRAL + a] + state[m.I_GAIN + a] * (integralFactor * error);
    const integral: Varying = maximum(integralFloor, minimum(craft[m.INTEGRAL_LIMIT], unlimited));
    state[m.INTEGRAL + a] = integral;
    let proportional: Varying = state[m.P_GAIN + a] * error;
    if (extended > 0)
      proportional = drive[extension + m.FACTORS] * proportional + drive[extension + m.FEED_FORWARD + a];
    state[m.AXIS_COMMAND + a] = proportional + integral;
  }
  const firstSlope: Index = coupled > 0 ? 0 : axis;
  const pastSlopes: Index = coupled > 0 ? 2 : axis + 1;
  for (let a: Index = firstSlope; a < pastSlopes; a++) {
    state[m.SLOPE + a] = state[m.GYRO_RATE + a] - state[m.FILTERED + a];
    state[m.FILTERED + a] = state[m.GYRO_RATE + a];
  }
  throughStages(craft, state, m.SLOPE, firstSlope, pastSlopes, 2, derivativeTable, derivativeMemory, derivativeStages);
  if (extended > 0)
    throughMovingStages(
      drive,
      state,
      m.SLOPE,
      firstSlope,
      pastSlopes,
      2,
      movingDerivativeTable,
      movingDerivativeMemory,
      movingDerivativeStages,
    );
  for (let a: Index = firstSlope; a < pastSlopes; a++) {
    let damping: Varying = state[m.D_GAIN + a] * state[m.SLOPE + a];
    if (extended > 0) damping = drive[extension + m.FACTORS + 2] * damping;
    state[m.AXIS_COMMAND + a] -= damping;
  }
}
