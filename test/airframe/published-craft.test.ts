// Published parameter sets, simulated and weighed: hover speed, roll acceleration, conventions, inertia.
import { Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import type { Inertia } from "../../src/airframe/airframe.js";
import { craftUnder, GRAVITY, STANDARD_DAY } from "../../src/airframe/craft.js";
import { inertiaFault, invertInertia } from "../../src/airframe/inertia.js";
import { figureOfMerit, hoverInducedVelocity, rotorCoefficients } from "../../src/airframe/rotor.js";
import { hoverTrim } from "../../src/airframe/trim.js";
import { publishedAirframe, SETS } from "./published-sets.js";

const near = (value: number, expected: number, relative: number): void => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);
};

describe.each(SETS)("$name", (set) => {
  const craft = craftUnder(publishedAirframe(set), STANDARD_DAY);

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
    const craft = craftUnder(publishedAirframe(set), STANDARD_DAY);
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
