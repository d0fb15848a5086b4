// A brushless motor as a first-order direct-current machine: V = R i + K w, torque K (i - i0).
import type { Motor } from "./airframe.js";

/** Torque per current, N m/A, which is also voltage per speed, V s/rad, from KV in rpm per volt. */
export function motorConstant(kvRpmPerVolt: number): number {
  return 60 / (2 * Math.PI * kvRpmPerVolt);
}

/** Braking of the motor by its own generated voltage, N m s. */
function selfDamping(motor: Motor): number {
  return (motor.constant * motor.constant) / motor.resistance;
}

/**
 * Speed, rad/s, at which the motor under these volts balances the load kQ w^2 (kQ in N m s^2); 0 when
 * the volts do not overcome the no-load current.
 */
export function steadySpeed(volts: number, motor: Motor, kQ: number): number {
  const damping = selfDamping(motor);
  const torque = motor.constant * (volts / motor.resistance - motor.noLoadCurrent);
  if (torque <= 0) return 0;
  // the root of kQ w^2 + damping w = torque, in the form that keeps its digits at small kQ
  return (2 * torque) / (damping + Math.sqrt(damping * damping + 4 * kQ * torque));
}

/**
 * Time constant, s, of small speed changes at a given volts: rotorInertia (kg m^2) is bell and
 * propeller together, speed in rad/s. It shrinks as speed rises; at speed 0 it is the unloaded one.
 */
export function speedTimeConstant(motor: Motor, rotorInertia: number, kQ: number, speed: number): number {
  return rotorInertia / (selfDamping(motor) + 2 * kQ * speed);
}
