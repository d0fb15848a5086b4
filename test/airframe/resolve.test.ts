import { describe, expect, test } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { readYaml } from "../../src/files/yaml.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const parse = (...pairs: [string, string][]) => parseAirframe(readYaml("x.yaml", changed(SMALL_MODEL, ...pairs)));

const withParts = (parts: string) =>
  parse(
    ["  mass: 600 g\n", `  parts:\n${parts}`],
    ["  centre_of_mass: [0 mm, 0 mm, 0 mm]\n", ""],
    ["  inertia: {xx: 1.2e-3 kg m^2, yy: 2.4e-3 kg m^2, zz: 3.2e-3 kg m^2}\n", ""],
  );

describe("a model as an airframe", () => {
  test("every number in SI", () => {
    const airframe = parse();
    expect(airframe.mass).toBe(0.6);
    expect(airframe.inertia).toEqual({ xx: 1.2e-3, yy: 2.4e-3, zz: 3.2e-3, xy: 0, xz: 0, yz: 0 });
    expect(airframe.rotors[0]).toEqual({ at: [0.1, -0.075, 0], spin: 1 });
    expect(airframe.rotors[1]?.spin).toBe(-1);
    expect(airframe.propeller.diameter).toBeCloseTo(0.127, 15);
    // 60/(2 pi KV): recomputed.
    expect(airframe.motor.constant).toBeCloseTo(60 / (2 * Math.PI * 1950), 14);
    expect(airframe.pack).toMatchObject({ cells: 4, capacity: 4680, resistance: 0.018 });
    expect(airframe.sensing.noiseDensity).toBeCloseTo((0.01 * Math.PI) / 180, 15);
    expect(airframe.controller).toMatchObject({ rate: 4000, latency: 0.001, idle: 0.06 });
  });

  test("gains that are not declared are null, yaw has no D", () => {
    const { roll, pitch, yaw, scale } = parse().controller;
    expect(roll).toEqual({ p: null, i: 40 * I_UNIT, d: null });
    expect(pitch).toEqual({ p: 20 * P_UNIT, i: 40 * I_UNIT, d: 2 * D_UNIT });
    expect(yaw).toEqual({ p: 30 * P_UNIT, i: 30 * I_UNIT, d: 0 });
    expect(scale).toBeNull();
  });

  test("what the file leaves out is assumed, and reported", () => {
    const airframe = parse();
    expect(airframe.defaulted).toEqual([
      "propeller.table: power falls by 45 % of cp per unit of advance ratio",
      "pack.open_circuit: the published lithium cell curve, 4.2 V when full",
      "sensing.low_pass: none",
      "sensing.vibration: none, so D looks cooler than it will be in flight",
      "controller.rate_derivative_filter: none",
      "controller.integral_limit: 30 %",
      "wash.rms: 12 %, an estimate to calibrate in flight",
      "wash.loss: 15 %, an estimate to calibrate in flight",
      "wash.revolutions: 30 per burst, measured rotors lie between 20 and 50",
      "wash.correlation: 30 %, an estimate to calibrate in flight",
    ]);
    expect(airframe.wash).toEqual({ rms: 0.12, loss: 0.15, revolutions: 30, correlation: 0.3 });
  });

  test("what the file gives is taken, even where it is zero", () => {
    const airframe = parse([
      "controller:\n",
      "wash: {rms: 0 %, loss: 0 %, correlation: 0 %, revolutions: 50}\ncontroller:\n  integral_limit: 0 %\n",
    ]);
    expect(airframe.wash).toEqual({ rms: 0, loss: 0, revolutions: 50, correlation: 0 });
    expect(airframe.controller.integralLimit).toBe(0);
    expect(airframe.defaulted).toHaveLength(5);
  });

  test("nothing of it can be changed", () => {
    const airframe = parse();
    expect(() => Object.assign(airframe.controller.roll, { p: 1 })).toThrow(TypeError);
    expect(() => Object.assign(airframe.rotors[0] ?? {}, { spin: -1 })).toThrow(TypeError);
  });

  test("zero thrust is taken from the table's thrust where the file does not say", () => {
    // On ct = 0.16 - 0.16 j exactly, thrust vanishes at j = 1; cp falls by 0.04 per unit. Recomputed by hand.
    const airframe = parse([
      "  zero_thrust_advance: 0.85\n",
      "  table: [{j: 0.1, ct: 0.144, cp: 0.076}, {j: 0.3, ct: 0.112, cp: 0.068}]\n",
    ]);
    expect(airframe.propeller.zeroThrustAdvance).toBeCloseTo(1, 12);
    expect(airframe.propeller.cpSlope).toBeCloseTo(-0.04, 12);
  });
});

describe("parts", () => {
  test("a part at the rotors is there once for each of them", () => {
    // Four points of 0.15 kg on the rotors: Ixx = m y^2 each, and so on (parallel-axis theorem).
    const airframe = withParts("    - {name: all, shape: point, mass: 150 g, at: rotors}\n");
    expect(airframe.mass).toBeCloseTo(0.6, 14);
    expect(airframe.inertia.xx).toBeCloseTo(0.6 * 0.075 ** 2, 14);
    expect(airframe.inertia.yy).toBeCloseTo(0.6 * 0.1 ** 2, 14);
    expect(airframe.inertia.zz).toBeCloseTo(0.6 * (0.075 ** 2 + 0.1 ** 2), 14);
  });

  test("a rod in any direction: m L^2/12 across, nothing along, no product where it lies in an axis", () => {
    // Slender rod, any mechanics text (Meriam and Kraige, Dynamics, appendix D; from memory, recomputed):
    // 0.05 kg and 0.25 m give 2.604167e-4 kg m^2. The heavy ring keeps the whole a possible body.
    const ring =
      "    - {name: ring, shape: cylinder, mass: 400 g, diameter: 200 mm, length: 20 mm, at: [0 mm, 0 mm, 0 mm]}\n";
    const bare = withParts(ring).inertia;
    const along = withParts(
      `${ring}    - {name: rod, shape: rod, mass: 50 g, from: [-125 mm, 0 mm, 0 mm], to: [125 mm, 0 mm, 0 mm]}\n`,
    ).inertia;
    expect(along.xx - bare.xx).toBeCloseTo(0, 16);
    expect(along.yy - bare.yy).toBeCloseTo(2.604167e-4, 10);
    expect(along.zz - bare.zz).toBeCloseTo(2.604167e-4, 10);
    const side = 125 / Math.SQRT2;
    const across = withParts(
      `${ring}    - {name: rod, shape: rod, mass: 50 g, from: [-${side} mm, -${side} mm, 0 mm], to: [${side} mm, ${side} mm, 0 mm]}\n`,
    ).inertia;
    expect(across.xx - bare.xx).toBeCloseTo(2.604167e-4 / 2, 10);
    expect(across.zz - bare.zz).toBeCloseTo(2.604167e-4, 10);
    expect(across.xy - bare.xy).toBeCloseTo(-2.604167e-4 / 2, 10);
  });

  test("a cylinder stands upright unless it says otherwise", () => {
    // m r^2/2 about its axis, m (3 r^2 + h^2)/12 across: 0.6 kg, r 0.1 m, h 0.02 m (recomputed).
    const upright = withParts(
      "    - {name: c, shape: cylinder, mass: 600 g, diameter: 200 mm, length: 20 mm, at: [0 mm, 0 mm, 0 mm]}\n",
    ).inertia;
    expect(upright.zz).toBeCloseTo(3e-3, 14);
    expect(upright.xx).toBeCloseTo(1.52e-3, 14);
    const lying = withParts(
      "    - {name: c, shape: cylinder, mass: 600 g, diameter: 200 mm, length: 20 mm, axis: x, at: [0 mm, 0 mm, 0 mm]}\n",
    ).inertia;
    expect(lying.xx).toBeCloseTo(3e-3, 14);
  });

  test("the centre of mass is where the parts put it", () => {
    const two = withParts(
      "    - {name: a, shape: box, mass: 300 g, size: [80 mm, 80 mm, 20 mm], at: [20 mm, 0 mm, 0 mm]}\n    - {name: b, shape: box, mass: 300 g, size: [80 mm, 80 mm, 20 mm], at: [0 mm, 0 mm, 40 mm]}\n",
    );
    expect(two.centreOfMass).toEqual([0.01, 0, 0.02]);
  });
});
