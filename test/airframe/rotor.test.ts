import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Propeller } from "../../src/airframe/airframe.js";
import { cpSlopeFromTable, figureOfMerit, hoverInducedVelocity, rotorCoefficients } from "../../src/airframe/rotor.js";
import { STATIC_ROWS } from "./propeller-rows.js";

const INCH = 0.0254;
const SEA_LEVEL = 1.225; // kg/m^3

const propeller = (inches: number, ct: number, cp: number, change: Partial<Propeller> = {}): Propeller => ({
  diameter: inches * INCH,
  blades: 2,
  ct,
  cp,
  cpSlope: 0,
  zeroThrustAdvance: 0.8,
  inertia: 5e-6,
  ...change,
});

const near = (value: number, expected: number, relative: number): void => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);
};

describe("coefficients of the tables", () => {
  it("a wind-tunnel row: efficiency J CT/CP as tabulated", () => {
    // UIUC Propeller Database vol. 2, 5.0x4.3 at 6047 rpm, second row: seen in a document.
    const [j, ct, cp] = [0.094683, 0.144527, 0.0774];
    const { diameter, ...rest } = propeller(5, ct / (1 - j / 0.8), cp);
    const k = rotorCoefficients({ diameter, ...rest }, SEA_LEVEL);
    const turns = 6047 / 60;
    const w = 2 * Math.PI * turns;
    const v = j * turns * diameter;
    const thrust = k.thrustStatic * w * w - k.thrustInflow * v * w;
    const torque = k.torqueStatic * w * w + k.torqueInflow * v * w;
    near(thrust, ct * SEA_LEVEL * turns ** 2 * diameter ** 4, 1e-12);
    expect((thrust * v) / (torque * w)).toBeCloseTo(0.1768, 4);
  });

  it("per rad/s: 1/4 pi^2 and 1/8 pi^3", () => {
    // Algebra of T = CT rho n^2 D^4 and P = CP rho n^3 D^5; quoted and recomputed.
    const k = rotorCoefficients(propeller(1 / INCH, 1, 1), 1);
    near(k.thrustStatic, 0.0253302959, 1e-8);
    near(k.torqueStatic, 0.0040314418, 1e-8);
    const other = rotorCoefficients(propeller(5, 0.13, 0.09), SEA_LEVEL);
    near(other.torqueStatic / other.thrustStatic, (0.09 * 5 * INCH) / (2 * Math.PI * 0.13), 1e-12);
  });

  it("in the helicopter convention: 4/pi^3 CT and 4/pi^4 CP", () => {
    // J.G. Leishman, Principles of Helicopter Aerodynamics, ch. 2: T over rho A (Omega R)^2; recomputed.
    const k = rotorCoefficients(propeller(5, 1, 1), SEA_LEVEL);
    const radius = 2.5 * INCH;
    const area = Math.PI * radius * radius;
    near(k.thrustStatic / (SEA_LEVEL * area * radius ** 2), 0.1290061, 1e-6);
    near(k.torqueStatic / (SEA_LEVEL * area * radius ** 3), 0.0410639, 2e-6);
  });

  // UIUC Propeller Database rows, worked through to SI elsewhere; recomputed.
  it.each([
    [
      "vol. 2, 5.0x3.75",
      5,
      0.129589,
      0.089348,
      723.9625,
      0.548266,
      5.53157,
      0.0076407,
      1.046067e-6,
      1.457807e-8,
      4.20305,
      0.416594,
    ],
    [
      "vol. 1, 8.0x3.8",
      8,
      0.1048,
      0.0447,
      566.6386,
      1.780101,
      13.91365,
      0.0245547,
      5.544118e-6,
      7.647554e-8,
      4.73337,
      0.605579,
    ],
  ])(
    "%s: thrust, power, torque, induced velocity, figure of merit",
    (_, inches, ct, cp, w, t, p, q, kT, kQ, vh, merit) => {
      const k = rotorCoefficients(propeller(inches, ct, cp), SEA_LEVEL);
      near(k.thrustStatic, kT, 1e-6);
      near(k.torqueStatic, kQ, 1e-6);
      near(k.thrustStatic * w ** 2, t, 2e-6);
      near(k.torqueStatic * w ** 2, q, 5e-6);
      near(k.torqueStatic * w ** 3, p, 2e-6);
      near(hoverInducedVelocity(t, inches * INCH, SEA_LEVEL), vh, 2e-6);
      near(figureOfMerit(ct, cp), (t * vh) / p, 3e-6);
      near(figureOfMerit(ct, cp), merit, 2e-5); // as printed, a unit of the fifth digit off its own T vh / P
    },
  );
});

describe("forty static rows of the database", () => {
  it.each(STATIC_ROWS)("vol. $volume, $size, $blades blades", ({ inches, ct, cp, kT, kQ, merit }) => {
    // The rows carry four decimals; half a unit of the last one is the tolerance.
    const k = rotorCoefficients(propeller(inches, ct, cp), SEA_LEVEL);
    const [ctShare, cpShare] = [0.00006 / ct, 0.00006 / cp];
    near(k.thrustStatic, kT, ctShare);
    near(k.torqueStatic, kQ, cpShare);
    expect(Math.abs(figureOfMerit(ct, cp) - merit)).toBeLessThan(merit * (1.5 * ctShare + cpShare) + 0.0005);
    // Range of real small propellers, from the same data; above 1 no rotor can be.
    expect(figureOfMerit(ct, cp)).toBeGreaterThan(0.2);
    expect(figureOfMerit(ct, cp)).toBeLessThan(0.85);
  });

  // Slowest and fastest static row: one fixed CT misses how thrust grows. UIUC Propeller Database, recomputed.
  it.each([
    ["vol. 1, 8.0x3.8", 8, 3030, 0.0951, 7015, 0.1143, 2.22],
    ["vol. 1, 10.0x4.7", 10, 2377, 0.1059, 6528, 0.1299, 2.2],
    ["vol. 1, 9.0x4.7", 9, 2763, 0.1137, 6768, 0.1199, 2.06],
    ["vol. 2, 5.0x3.75", 5, 1410, 0.118, 7440, 0.129, 2.05],
  ])(
    "%s: measured thrust grows with a higher power of speed than 2",
    (_, inches, slow, ctSlow, fast, ctFast, power) => {
      const thrust = (rpm: number, ct: number) =>
        rotorCoefficients(propeller(inches, ct, 0.05), SEA_LEVEL).thrustStatic * rpm * rpm;
      const growth = (ct: number) => Math.log(thrust(fast, ct) / thrust(slow, ctSlow)) / Math.log(fast / slow);
      expect(growth(ctFast)).toBeCloseTo(power, 2);
      expect(growth(ctSlow)).toBeCloseTo(2, 12); // what the model says from one coefficient
    },
  );
});

describe("momentum theory", () => {
  it("figure of merit is ideal power over shaft power", () => {
    // Rankine-Froude hover: ideal power T vh; constant sqrt(2/pi) recomputed.
    const k = rotorCoefficients(propeller(5, 0.13, 0.09), SEA_LEVEL);
    const [w, d] = [900, 5 * INCH];
    const thrust = k.thrustStatic * w * w;
    near(
      (thrust * hoverInducedVelocity(thrust, d, SEA_LEVEL)) / (k.torqueStatic * w ** 3),
      figureOfMerit(0.13, 0.09),
      1e-12,
    );
    near(figureOfMerit(1, 1), 0.7978846, 1e-7);
  });

  it("a tilt-rotor of 45 000 lb on two 38 ft rotors", () => {
    // Leishman, 2nd ed., ch. 2 worked example (from memory, recomputed), in its own units: lb, ft, slug/ft^3.
    const velocity = hoverInducedVelocity(22500, 38, 0.002378);
    near(velocity, 64.5865, 2e-6);
    const horsepower = (22500 * velocity) / 550; // each rotor
    near(horsepower, 2642.18, 2e-6);
    near(horsepower / 0.75, 3522.9, 2e-5);
  });
});

describe("air through the rotor", () => {
  it("thrust and power follow their lines in advance ratio", () => {
    const p = propeller(5.1, 0.16, 0.1, { cpSlope: -0.07, zeroThrustAdvance: 0.85 });
    const k = rotorCoefficients(p, 1.1);
    fc.assert(
      fc.property(
        fc.double({ min: -0.3, max: 1, noNaN: true }),
        fc.double({ min: 20, max: 400, noNaN: true }),
        (j, n) => {
          const [w, v, unit] = [2 * Math.PI * n, j * n * p.diameter, 1.1 * n ** 2 * p.diameter ** 4];
          const thrust = k.thrustStatic * w * w - k.thrustInflow * v * w;
          const torque = k.torqueStatic * w * w + k.torqueInflow * v * w;
          expect(thrust / unit).toBeCloseTo(0.16 * (1 - j / 0.85), 10);
          expect(torque / (unit * p.diameter)).toBeCloseTo((0.1 - 0.07 * j) / (2 * Math.PI), 10);
        },
      ),
      { seed: 3 },
    );
  });
});

describe("slope of the power coefficient from a table", () => {
  // UIUC Propeller Database vol. 2, 5.0x4.3 at 6047 rpm: seen in a document.
  const rows = [
    { j: 0.094683, cp: 0.0774 },
    { j: 0.192252, cp: 0.075592 },
    { j: 0.281838, cp: 0.070926 },
    { j: 0.37748, cp: 0.065253 },
    { j: 0.472962, cp: 0.058446 },
    { j: 0.571573, cp: 0.049426 },
  ];

  it("no other line through the static value leaves smaller squares", () => {
    const slope = cpSlopeFromTable(rows, 0.0785, 0.4);
    const squares = (s: number) => rows.slice(0, 4).reduce((sum, { j, cp }) => sum + (cp - 0.0785 - s * j) ** 2, 0);
    expect(slope).toBeLessThan(0);
    for (const other of [slope * 0.999, slope * 1.001]) expect(squares(other)).toBeGreaterThan(squares(slope));
  });

  it("finds the slope of a straight table, whatever the rows beyond the bound", () => {
    const straight = [0, 0.1, 0.25, 0.4].map((j) => ({ j, cp: 0.09 - 0.06 * j }));
    expect(cpSlopeFromTable([...straight, { j: 0.7, cp: 0 }, { j: -0.2, cp: 1 }], 0.09, 0.5)).toBeCloseTo(-0.06, 14);
  });

  it("refuses a table without a row in reach", () => {
    expect(() => cpSlopeFromTable(rows, 0.0785, 0.05)).toThrow(/no row of the table/);
  });
});
