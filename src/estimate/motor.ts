// What a motor's label and the scale say of its insides. No published set of motors was at hand: each law is the scaling
// of like motors, each factor common practice, each spread wide.

import { motorConstant } from "../airframe/motor.js";
import { pow } from "../base/elementary.js";
import { COMMON, combined, type Estimate } from "./estimate.js";

export interface MotorSize {
  readonly mass: { readonly value: number; readonly spread: number }; // kg
  readonly bell: { readonly diameter: number; readonly length: number; readonly spread: number }; // m; of both
}

const DENSITY = 2700; // kg/m^3, of the cylinder around bell and base
const SLENDER = 0.72; // length of that cylinder over its diameter

/** Weight and bell of a motor, one of which was measured: kg, m. */
export function motorSize(mass?: number, bell?: { readonly diameter: number; readonly length: number }): MotorSize {
  if (bell === undefined) {
    const value = mass ?? Number.NaN;
    const diameter = pow((4 * value) / (Math.PI * SLENDER * DENSITY), 1 / 3);
    return {
      mass: { value, spread: 0 },
      bell: { diameter, length: SLENDER * diameter, spread: 0.12 },
    };
  }
  const volume = (Math.PI / 4) * bell.diameter * bell.diameter * bell.length;
  const weighed = mass === undefined ? { value: DENSITY * volume, spread: 0.25 } : { value: mass, spread: 0 };
  return { mass: weighed, bell: { ...bell, spread: 0 } };
}

/** kg m²: a ring of 42 % of the weight at 90 % of the radius. */
export function bellInertia({ mass, bell }: MotorSize): Estimate {
  const radius = 0.9 * 0.5 * bell.diameter;
  return {
    value: 0.42 * mass.value * radius * radius,
    spread: combined(mass.spread, 2 * bell.spread, 0.3),
    source: `a ring of 42 % of the motor's weight at 90 % of its radius; ${COMMON}`,
  };
}

const COPPER = 0.12; // (N m)²/W of a motor of 1 kg: torque squared per heat
const LEADS = 0.01; // ohm, leads and speed controller

/** ohm, winding with leads and speed controller. Of like motors, torque squared per heat grows with weight to the 5/3. */
export function motorResistance(kvRpmPerVolt: number, { mass }: MotorSize): Estimate {
  const constant = motorConstant(kvRpmPerVolt);
  return {
    value: (constant * constant) / (COPPER * pow(mass.value, 5 / 3)) + LEADS,
    spread: combined(0.5, (5 / 3) * mass.spread),
    source: `winding by KV and weight, and 10 mohm for leads and speed controller; ${COMMON}`,
  };
}

const DRAG = 0.12; // N m per kg of motor

/** A. The torque that bearings and iron take grows with weight. */
export function noLoadCurrent(kvRpmPerVolt: number, { mass }: MotorSize): Estimate {
  return {
    value: (DRAG * mass.value) / motorConstant(kvRpmPerVolt),
    spread: combined(0.5, mass.spread),
    source: `by KV and weight; ${COMMON}`,
  };
}

/** Of the label. */
export const KV_SPREAD = 0.05;
