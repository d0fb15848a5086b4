// The standard atmosphere, propellers from the wind tunnel, momentum theory.
import { airDensity, standardAir } from "../../../src/airframe/air.js";
import { figureOfMerit, hoverInducedVelocity, rotorCoefficients } from "../../../src/airframe/rotor.js";
import { STATIC_ROWS } from "../../airframe/propeller-rows.js";
import { alike, type Group } from "../check.js";

const INCH = 0.0254;
const SEA_LEVEL = 1.225; // kg/m^3

const rotor = (inches: number, ct: number, cp: number) =>
  rotorCoefficients(
    { diameter: inches * INCH, blades: 2, ct, cp, cpSlope: 0, zeroThrustAdvance: 0.8, inertia: 5e-6 },
    SEA_LEVEL,
  );

const small = rotor(5, 0.129589, 0.089348);
const large = rotor(8, 0.1048, 0.0447);

/** Largest share by which the rows' thrust (or torque) coefficient is missed. */
const worstRow = (of: "thrustStatic" | "torqueStatic") =>
  STATIC_ROWS.reduce((most, { inches, ct, cp, kT, kQ }) => {
    const wanted = of === "thrustStatic" ? kT : kQ;
    return Math.max(most, Math.abs(rotor(inches, ct, cp)[of] / wanted - 1));
  }, 0);

/** Rows of one propeller in the tunnel's wind that still pull: advance ratio, CT, CP, and J CT/CP worked out elsewhere. */
const IN_WIND = [
  [0.192252, 0.133101, 0.075592, 0.33851378],
  [0.281838, 0.116834, 0.070926, 0.4642622],
  [0.37748, 0.097216, 0.065253, 0.56238174],
  [0.472962, 0.07766, 0.058446, 0.62844727],
  [0.571573, 0.055851, 0.049426, 0.6458731],
  [0.664012, 0.035195, 0.039772, 0.58759686],
  [0.761817, 0.01003, 0.026673, 0.28647038],
] as const;

/** Efficiency of a row of the tunnel at its own advance ratio, from our thrust and torque. */
function efficiency(j: number, ct: number, cp: number): number {
  const n = 6047 / 60;
  const diameter = 5 * INCH;
  const at = { diameter, blades: 2, ct: ct / (1 - j / 0.8), cp, cpSlope: 0, zeroThrustAdvance: 0.8, inertia: 5e-6 };
  const k = rotorCoefficients(at, SEA_LEVEL);
  const [w, v] = [2 * Math.PI * n, j * n * diameter];
  return ((k.thrustStatic * w * w - k.thrustInflow * v * w) * v) / (k.torqueStatic * w * w * w);
}

/** Power of speed with which the measured thrust grows between two rows of the tunnel. */
const growth = (inches: number, slow: number, ctSlow: number, fast: number, ctFast: number): number => {
  const thrust = (rpm: number, ct: number) => rotor(inches, ct, 0.05).thrustStatic * rpm * rpm;
  return Math.log(thrust(fast, ctFast) / thrust(slow, ctSlow)) / Math.log(fast / slow);
};

const UIUC = "UIUC Propeller Database";

export const AIR_AND_ROTORS: Group = {
  title: "Air and rotors",
  checks: [
    ...alike(
      {
        source: "ISO 2533:1975, tables as in four public test suites",
        status: "seen in a document",
        unit: "Pa",
        within: { unit: 0.02 },
      },
      [
        ["pressure at 1000 m", 89874.56, () => standardAir(1000).pressure],
        ["pressure at 3000 m", 70108.53, () => standardAir(3000).pressure],
      ],
    ),
    ...alike({ source: "ISO 2533:1975", status: "seen in a document", unit: "kg/m^3", within: { share: 2e-6 } }, [
      ["density at 1000 m", 1.111643, () => airDensity(1000, null)],
      ["density at 2000 m", 1.00649, () => airDensity(2000, null)],
      ["density at 5000 m", 0.736116, () => airDensity(5000, null)],
      ["density at sea level, 30 degrees Celsius", 1.164386, () => airDensity(0, 303.15)],
      ["density at 2000 m, 20 K warm", 0.938288, () => airDensity(2000, 295.15)],
    ]),
    ...alike(
      {
        source: `${UIUC} vol. 2, 5.0x3.75 at 6913 rpm, worked through elsewhere`,
        status: "recomputed",
        unit: "",
        within: { share: 5e-6 },
      },
      [
        ["5-inch: thrust per speed squared, N s^2", 1.046067e-6, () => small.thrustStatic],
        ["5-inch: torque per speed squared, N m s^2", 1.457807e-8, () => small.torqueStatic],
        ["5-inch: thrust, N", 0.548266, () => small.thrustStatic * 723.9625 ** 2],
        ["5-inch: power, W", 5.53157, () => small.torqueStatic * 723.9625 ** 3],
        ["5-inch: induced velocity, m/s", 4.20305, () => hoverInducedVelocity(0.548266, 5 * INCH, SEA_LEVEL)],
      ],
    ),
    ...alike(
      {
        source: `${UIUC} vol. 1, 8.0x3.8 at 5411 rpm, worked through elsewhere`,
        status: "recomputed",
        unit: "",
        within: { share: 5e-6 },
      },
      [
        ["8-inch: thrust, N", 1.780101, () => large.thrustStatic * 566.6386 ** 2],
        ["8-inch: power, W", 13.91365, () => large.torqueStatic * 566.6386 ** 3],
      ],
    ),
    ...alike(
      {
        source: `${UIUC} vol. 1 to 3, forty static rows of four decimals`,
        status: "seen in a document",
        unit: "",
        within: { unit: 3e-3 },
      },
      [
        ["forty propellers: largest share the thrust is missed by", 0, () => worstRow("thrustStatic")],
        ["forty propellers: largest share the torque is missed by", 0, () => worstRow("torqueStatic")],
      ],
    ),
    ...alike(
      { source: `${UIUC} vol. 2, 5.0x4.3 at 6047 rpm`, status: "seen in a document", unit: "", within: { unit: 5e-5 } },
      [["efficiency at an advance ratio of 0.0947", 0.1768, () => efficiency(0.094683, 0.144527, 0.0774)]],
    ),
    ...alike(
      {
        source: `${UIUC} vol. 2, 5.0x4.3 at 6047 rpm: its J CT/CP`,
        status: "recomputed",
        unit: "",
        within: { share: 2e-6 },
      },
      IN_WIND.map(([j, ct, cp, wanted]) => [
        `efficiency at an advance ratio of ${j}`,
        wanted,
        () => efficiency(j, ct, cp),
      ]),
    ),
    ...alike(
      {
        source: `${UIUC}: why one thrust coefficient is a simplification`,
        status: "recomputed",
        unit: "",
        within: { unit: 0.005 },
      },
      [
        ["power of speed with which thrust grows, 8.0x3.8", 2.22, () => growth(8, 3030, 0.0951, 7015, 0.1143)],
        ["power of speed with which thrust grows, 10.0x4.7", 2.2, () => growth(10, 2377, 0.1059, 6528, 0.1299)],
        ["power of speed with which thrust grows, 5.0x3.75", 2.05, () => growth(5, 1410, 0.118, 7440, 0.129)],
      ],
    ),
    ...alike(
      {
        source: "J.G. Leishman, Principles of Helicopter Aerodynamics, ch. 2, a tilt-rotor",
        status: "from memory; recomputed",
        unit: "ft/s",
        within: { share: 2e-6 },
      },
      [["induced velocity under 22 500 lb on a 38 ft rotor", 64.5865, () => hoverInducedVelocity(22500, 38, 0.002378)]],
    ),
    ...alike({ source: "Rankine and Froude", status: "recomputed", unit: "", within: { share: 1e-6 } }, [
      ["figure of merit at CT = CP = 1", 0.7978846, () => figureOfMerit(1, 1)],
    ]),
  ],
};
