import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Motor } from "../../src/airframe/airframe.js";
import { motorConstant, speedTimeConstant, steadySpeed } from "../../src/airframe/motor.js";

const near = (value: number, expected: number, relative: number): void => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);
};

const motor = (kv: number, resistance: number, noLoadCurrent: number): Motor => ({
  constant: motorConstant(kv),
  resistance,
  noLoadCurrent,
  bellInertia: 2.6e-6,
});

// Electrical values are round examples; loads are rows of the UIUC Propeller Database (vol. 2, 5.0x3.75 and
// vol. 1, 8.0x3.8) at 1.225 kg/m^3. Operating points recomputed elsewhere.
const SMALL = { motor: motor(2300, 0.06, 0.8), inertia: 8e-6, kT: 1.046067e-6, kQ: 1.457807e-8 };
const LARGE = { motor: motor(920, 0.12, 0.5), inertia: 3e-5, kT: 5.544118e-6, kQ: 7.647554e-8 };

/** All that follows from the two functions at one applied voltage. */
function point({ motor: m, inertia, kT, kQ }: typeof SMALL, volts: number) {
  const w = steadySpeed(volts, m, kQ);
  const current = (volts - m.constant * w) / m.resistance;
  const step = 1e-3;
  const slope = (steadySpeed(volts + step, m, kQ) - steadySpeed(volts - step, m, kQ)) / (2 * step);
  return {
    w,
    rpm: (w * 60) / (2 * Math.PI),
    current,
    torque: m.constant * (current - m.noLoadCurrent),
    load: kQ * w * w,
    thrust: kT * w * w,
    input: volts * current,
    efficiency: (kQ * w ** 3) / (volts * current),
    tau: speedTimeConstant(m, inertia, kQ, w),
    slope,
    thrustSlope: 2 * kT * w * slope,
  };
}

describe("motor constant", () => {
  // Energy balance of a lossless machine, any text on direct-current machines (from memory); recomputed.
  it.each([
    [920, 0.0103796702],
    [1000, 0.0095492966],
    [2300, 0.0041518681],
    [2400, 0.0039788736],
  ])("KV %d rpm/V", (kv, constant) => {
    near(motorConstant(kv), constant, 1e-8);
  });
});

describe("operating points of a small motor, KV 2300 on a 5-inch propeller", () => {
  it.each([
    [3.7, 843.5017, 8054.85, 3.29821, 0.010372, 0.744271, 12.203, 0.71693, 0.0256498, 221.8636, 0.391527],
    [7.4, 1635.1076, 15614.13, 10.18748, 0.038976, 2.796741, 75.387, 0.84536, 0.0238825, 206.5769, 0.706671],
    [11.1, 2375.5801, 22685.12, 20.61508, 0.08227, 5.903354, 228.827, 0.85408, 0.0224364, 194.069, 0.964529],
    [14.8, 3073.7087, 29351.76, 33.97278, 0.137729, 9.882912, 502.797, 0.84197, 0.0212248, 183.5887, 1.180587],
  ])("%d V", (volts, w, rpm, current, torque, thrust, input, efficiency, tau, slope, thrustSlope) => {
    const at = point(SMALL, volts);
    near(at.w, w, 1e-6);
    near(at.rpm, rpm, 1e-6);
    near(at.current, current, 3e-6);
    near(at.torque, torque, 5e-5);
    near(at.thrust, thrust, 2e-6);
    near(at.input, input, 5e-5);
    near(at.efficiency, efficiency, 1e-5);
    near(at.tau, tau, 3e-6);
    near(at.slope, slope, 1e-6);
    near(at.thrustSlope, thrustSlope, 3e-6);
  });

  it("unloaded time constant J R/(Kt Ke)", () => {
    near(speedTimeConstant(SMALL.motor, 8e-6, SMALL.kQ, 0), 0.0278454, 2e-6);
  });
});

describe("operating points of a larger motor, KV 920 on an 8-inch propeller", () => {
  it.each([
    [3.7, 340.7928, 3254.33, 1.3557, 0.008882, 0.64389, 0.60343, 0.031581, 91.05572, 0.34408],
    [7.4, 669.0255, 6388.72, 3.7978, 0.03423, 2.48152, 0.81487, 0.029996, 86.48505, 0.641573],
    [11.1, 981.5517, 9373.13, 7.5985, 0.07368, 5.34145, 0.85746, 0.028628, 82.54009, 0.89834],
  ])("%d V", (volts, w, rpm, current, torque, thrust, efficiency, tau, slope, thrustSlope) => {
    const at = point(LARGE, volts);
    near(at.w, w, 1e-6);
    near(at.rpm, rpm, 2e-6);
    near(at.current, current, 4e-5);
    near(at.torque, torque, 6e-5);
    near(at.thrust, thrust, 1e-5);
    near(at.efficiency, efficiency, 1e-5);
    near(at.tau, tau, 3e-5);
    near(at.slope, slope, 1e-6);
    near(at.thrustSlope, thrustSlope, 3e-6);
  });

  it("unloaded time constant", () => {
    near(speedTimeConstant(LARGE.motor, 3e-5, LARGE.kQ, 0), 0.033415, 2e-5);
  });
});

describe("laws behind the points", () => {
  it("no load: (V - R i0)/Ke", () => {
    near(steadySpeed(14.8, SMALL.motor, 0), (14.8 - 0.06 * 0.8) / SMALL.motor.constant, 1e-14);
  });

  it("the best efficiency over all loads is (1 - sqrt(i0 R/V))^2", () => {
    // M. Drela, First-Order DC Electric Motor Model, MIT 2007 (from memory); recomputed.
    const loads = Array.from({ length: 4001 }, (_, i) => 10 ** (-11 + i / 1000));
    const best = Math.max(...loads.map((kQ) => point({ ...SMALL, kQ }, 11.1).efficiency));
    near(best, (1 - Math.sqrt((0.8 * 0.06) / 11.1)) ** 2, 1e-6);
  });

  it("torque balances the load at every voltage, and the response slope is the time constant's", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 25, noNaN: true }),
        fc.double({ min: 1e-9, max: 1e-6, noNaN: true }),
        (v, kQ) => {
          const craft = { ...SMALL, kQ };
          const at = point(craft, v);
          expect(Math.abs(at.torque - at.load)).toBeLessThan(1e-9);
          const conductance = SMALL.motor.constant / SMALL.motor.resistance;
          near(at.slope, (conductance * at.tau) / craft.inertia, 1e-6);
        },
      ),
      { seed: 4 },
    );
  });

  it("the time constant shrinks as speed rises", () => {
    expect(speedTimeConstant(SMALL.motor, 8e-6, SMALL.kQ, 3000)).toBeLessThan(
      speedTimeConstant(SMALL.motor, 8e-6, SMALL.kQ, 1000),
    );
  });

  it("stands still, never backwards, below the no-load current", () => {
    const starting = SMALL.motor.resistance * SMALL.motor.noLoadCurrent;
    expect(steadySpeed(0, SMALL.motor, SMALL.kQ)).toBe(0);
    expect(steadySpeed(-5, SMALL.motor, SMALL.kQ)).toBe(0);
    expect(steadySpeed(0.99 * starting, SMALL.motor, SMALL.kQ)).toBe(0);
    expect(steadySpeed(1.01 * starting, SMALL.motor, SMALL.kQ)).toBeGreaterThan(0);
  });
});
