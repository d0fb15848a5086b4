// Published parameter sets of research multirotors: they test arithmetic, not realism. Hover figures were recomputed
// elsewhere with g = 9.81 m/s^2.
import { airDensity } from "../../src/airframe/air.js";
import type { Airframe, Inertia, Propeller, Vector3 } from "../../src/airframe/airframe.js";
import { motorConstant } from "../../src/airframe/motor.js";
import { CELL_OPEN_CIRCUIT } from "../../src/airframe/pack.js";

export interface Published {
  readonly name: string;
  readonly mass: number; // kg
  readonly inertia: Inertia; // kg m^2
  readonly arm: number; // m
  readonly kT: number; // N s^2
  readonly kQ: number; // N m s^2
  readonly diameter: number; // m; where the set names none, any: hover speed must not depend on it
  readonly hover: number; // rad/s
  readonly gain: number | null; // roll acceleration per differential rotor speed, (rad/s^2)/(rad/s)
}

const diagonal = (xx: number, zz: number): Inertia => ({ xx, yy: xx, zz, xy: 0, xz: 0, yz: 0 });

export const SETS: readonly Published[] = [
  {
    // S. Bouabdallah, Design and Control of Quadrotors with Application to Autonomous Flying, EPFL thesis 3727
    // (2007); quoted alike in eight public sources (some misprint the drag factor a hundredfold).
    name: "0.65 kg, slow rotors",
    mass: 0.65,
    inertia: diagonal(7.5e-3, 1.3e-2),
    arm: 0.23,
    kT: 3.13e-5,
    kQ: 7.5e-7,
    diameter: 0.3,
    hover: 225.678,
    gain: 0.866483,
  },
  {
    // N. Michael, D. Mellinger, Q. Lindsey and V. Kumar, IEEE Robotics and Automation Magazine 17(3), 2010:
    // 6.11e-8 N/rpm^2 and 1.5e-9 N m/rpm^2; quoted in three public sources.
    name: "0.5 kg",
    mass: 0.5,
    inertia: diagonal(2.32e-3, 4e-3),
    arm: 0.175,
    kT: 6.11e-8 * (30 / Math.PI) ** 2,
    kQ: 1.5e-9 * (30 / Math.PI) ** 2,
    diameter: 0.2,
    hover: 469.135,
    gain: 0.788663,
  },
  {
    // T. Luukkonen, Modelling and control of quadcopter, Aalto University (2011); quoted in three public sources.
    name: "0.468 kg",
    mass: 0.468,
    inertia: diagonal(4.856e-3, 8.801e-3),
    arm: 0.225,
    kT: 2.98e-6,
    kQ: 1.14e-7,
    diameter: 0.2,
    hover: 620.611,
    gain: 0.342767,
  },
  {
    // P. Pounds, thesis, Australian National University (2007), and with R. Mahony and P. Corke, Control
    // Engineering Practice 18 (2010); quoted in two public sources. Coefficients there are per (Omega R)^2,
    // the air is 1.184 kg/m^3.
    name: "4 kg, large rotors",
    mass: 4,
    inertia: diagonal(0.082, 0.149),
    arm: 0.315,
    kT: 0.0048 * 1.184 * Math.PI * 0.165 ** 4,
    kQ: 2.3515e-4 * 1.184 * Math.PI * 0.165 ** 5,
    diameter: 0.33,
    hover: 860.984,
    gain: null,
  },
];

const SEA_LEVEL = airDensity(0, null);

/** The set as an airframe in the "+" layout, with a motor and pack strong enough not to matter to hover speed. */
export function publishedAirframe({ name, mass, inertia, arm, kT, kQ, diameter }: Published): Airframe {
  const propeller: Propeller = {
    diameter,
    blades: 2,
    ct: (kT * 4 * Math.PI ** 2) / (SEA_LEVEL * diameter ** 4),
    cp: (kQ * 8 * Math.PI ** 3) / (SEA_LEVEL * diameter ** 5),
    cpSlope: 0,
    zeroThrustAdvance: 0.8,
    inertia: 6e-5,
  };
  const gains = { p: 0, i: 0, d: 0 };
  const at = (x: number, y: number): Vector3 => [x, y, 0];
  return {
    name,
    version: "published",
    title: name,
    mass,
    centreOfMass: [0, 0, 0],
    inertia,
    rotors: [
      { at: at(arm, 0), spin: 1 },
      { at: at(0, arm), spin: -1 },
      { at: at(-arm, 0), spin: 1 },
      { at: at(0, -arm), spin: -1 },
    ],
    propeller,
    motor: { constant: motorConstant(900), resistance: 0.05, noLoadCurrent: 0.5, bellInertia: 1e-5 },
    pack: { cells: 6, capacity: 18000, resistance: 0.01, openCircuit: CELL_OPEN_CIRCUIT },
    sensing: { noiseDensity: 0, lowPass: [], vibration: [] },
    controller: {
      rate: 1000,
      latency: 0,
      idle: 0.02,
      substeps: 1,
      derivativeFilter: [],
      integralLimit: 0.3,
      roll: gains,
      pitch: gains,
      yaw: gains,
      scale: null,
    },
    wash: { rms: 0, loss: 0, revolutions: 30, correlation: 0 },
    defaulted: [],
  };
}
