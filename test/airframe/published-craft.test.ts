// Published parameter sets of research multirotors: they test arithmetic, not realism. Hover figures were
// recomputed elsewhere with g = 9.81 m/s^2.
import { Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import type { Airframe, Inertia, Propeller, Vector3 } from "../../src/airframe/airframe.js";
import { airDensity } from "../../src/airframe/air.js";
import { craftUnder, GRAVITY, STANDARD_DAY } from "../../src/airframe/craft.js";
import { inertiaFault, invertInertia } from "../../src/airframe/inertia.js";
import { motorConstant } from "../../src/airframe/motor.js";
import { CELL_OPEN_CIRCUIT } from "../../src/airframe/pack.js";
import { figureOfMerit, hoverInducedVelocity, rotorCoefficients } from "../../src/airframe/rotor.js";
import { hoverTrim } from "../../src/airframe/trim.js";

const near = (value: number, expected: number, relative: number): void => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);
};

interface Published {
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

const SETS: readonly Published[] = [
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
function airframe({ name, mass, inertia, arm, kT, kQ, diameter }: Published): Airframe {
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

describe.each(SETS)("$name", (set) => {
  const craft = craftUnder(airframe(set), STANDARD_DAY);

  it("hovers at the published rotor speed", () => {
    near(craft.thrustStatic, set.kT, 1e-12);
    near(craft.torqueStatic, set.kQ, 1e-12);
    const trim = hoverTrim(craft);
    const standardGravity = Math.sqrt(GRAVITY / 9.81);
    expect(trim?.speeds).toHaveLength(4);
    for (const speed of trim?.speeds ?? []) near(speed, set.hover * standardGravity, 2e-6);
  });

  it("has the inertia of a real body", () => {
    expect(inertiaFault(set.inertia)).toBeNull();
  });
});

describe("roll acceleration per differential rotor speed", () => {
  it.each(SETS.filter(({ gain }) => gain !== null))("$name", (set) => {
    // 4 arm kT w / Ixx: the left rotor faster, the right one slower, thrust slope 2 kT w on each; recomputed.
    const craft = craftUnder(airframe(set), STANDARD_DAY);
    const torque = craft.arms.reduce((sum, [, y]) => sum + Math.abs(y) * 2 * craft.thrustStatic * set.hover, 0);
    near(invertInertia(craft.inertia).xx * torque, set.gain ?? NaN, 2e-6);
  });
});

describe("coefficients in the helicopter convention, 4 kg craft", () => {
  const ct = (0.0048 * Math.PI ** 3) / 4;
  const cp = (0.0048 * Math.sqrt(0.0048 / 2) * Math.PI ** 4) / 4;
  const propeller = { diameter: 0.33, blades: 2, ct, cp, cpSlope: 0, zeroThrustAdvance: 1, inertia: 0 };

  it("carries a quarter of the weight at 860.984 rad/s", () => {
    near(rotorCoefficients(propeller, 1.184).thrustStatic * 860.984 ** 2, 9.81, 3e-6);
  });

  it("its torque law leaves no loss at all: figure of merit 1", () => {
    near(figureOfMerit(ct, cp), 1, 1e-12);
    const power = rotorCoefficients(propeller, 1.184).torqueStatic * 860.984 ** 3;
    near(power, 9.81 * hoverInducedVelocity(9.81, 0.33, 1.184), 1e-5);
  });
});

describe("full inertia of a 27 g craft", () => {
  // J. Forster, B.Sc. thesis, ETH Zurich (2015), system identification; quoted in six public sources.
  const inertia: Inertia = {
    xx: 16.57171e-6,
    yy: 16.655602e-6,
    zz: 29.261652e-6,
    xy: 0.830806e-6,
    xz: 0.718277e-6,
    yz: 1.800197e-6,
  };

  it("is that of a real body, and inverts", () => {
    expect(inertiaFault(inertia)).toBeNull();
    const matrix = (i: Inertia) =>
      new Matrix([
        [i.xx, i.xy, i.xz],
        [i.xy, i.yy, i.yz],
        [i.xz, i.yz, i.zz],
      ]);
    const rest = matrix(inertia)
      .mmul(matrix(invertInertia(inertia)))
      .sub(Matrix.eye(3));
    expect(rest.abs().max()).toBeLessThan(1e-14);
  });
});
