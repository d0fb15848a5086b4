import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Motor, Pack } from "../../src/airframe/airframe.js";
import { motorConstant, steadySpeed } from "../../src/airframe/motor.js";
import { CELL_OPEN_CIRCUIT, openCircuitVolts } from "../../src/airframe/pack.js";

const pack = (cells: number, openCircuit = CELL_OPEN_CIRCUIT): Pack => ({
  cells,
  capacity: 4680,
  resistance: 0.012,
  openCircuit,
});

describe("the default cell", () => {
  // Modelica Standard Library, Electrical.Batteries.ParameterRecords.ExampleData, times 4.2 V: seen in a document.
  it.each([
    [0, 2.499],
    [0.1, 3.1962],
    [0.2, 3.3012],
    [0.3, 3.3768],
    [0.4, 3.4356],
    [0.5, 3.507],
    [0.6, 3.591],
    [0.7, 3.7296],
    [0.8, 3.8892],
    [0.9, 4.0488],
    [1, 4.2],
  ])("charge %d: %d V, and that per cell in a pack", (charge, volts) => {
    expect(openCircuitVolts(pack(1), charge)).toBeCloseTo(volts, 12);
    expect(openCircuitVolts(pack(4), charge)).toBeCloseTo(4 * volts, 11);
  });

  // The same record between the tens, as shares of the full voltage: seen in a document.
  it.each([
    [0.01, 0.656],
    [0.02, 0.688],
    [0.03, 0.714],
    [0.04, 0.737],
    [0.05, 0.744],
    [0.06, 0.75],
    [0.07, 0.754],
    [0.08, 0.756],
    [0.09, 0.758],
    [0.15, 0.774],
    [0.25, 0.795],
    [0.35, 0.811],
    [0.45, 0.826],
    [0.55, 0.843],
    [0.65, 0.871],
    [0.75, 0.905],
    [0.85, 0.943],
    [0.95, 0.98],
  ])("charge %d: %d of full", (charge, share) => {
    expect(openCircuitVolts(pack(1), charge) / 4.2).toBeCloseTo(share, 12);
  });

  it("rises with charge, in a straight line between rows", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (a, b) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(openCircuitVolts(pack(3), low)).toBeLessThanOrEqual(openCircuitVolts(pack(3), high));
      }),
      { seed: 5 },
    );
    expect(openCircuitVolts(pack(1), 0.125)).toBeCloseTo((4.2 * (0.761 + 0.774)) / 2, 12);
  });
});

describe("a table of one's own", () => {
  it("holds its end values beyond its rows", () => {
    const own = pack(2, [
      [0.2, 3.5],
      [0.9, 4.1],
    ]);
    expect([0, 0.2, 0.55, 0.9, 1].map((c) => openCircuitVolts(own, c))).toEqual([7, 7, 7.6, 8.2, 8.2]);
    expect(openCircuitVolts(pack(2, [[0.5, 3.7]]), 0.1)).toBe(7.4);
  });

  it.each([-0.01, 1.01, NaN])("charge %d is refused", (charge) => {
    expect(() => openCircuitVolts(pack(4), charge)).toThrow(/outside 0 to 1/);
  });
});

describe("sag", () => {
  // Thevenin source: at full duty its resistance adds to one motor's. KV 2300 motor on four full cells, load of the
  // UIUC Propeller Database vol. 2, 5.0x3.75; recomputed.
  it.each([
    [0, 3435.815, 42.249],
    [0.01, 3363.259, 40.517],
    [0.02, 3295.982, 38.944],
  ])("a source of %d ohm: %d rad/s and %d A", (source, speed, current) => {
    const motor: Motor = {
      constant: motorConstant(2300),
      resistance: 0.06 + source,
      noLoadCurrent: 0.8,
      bellInertia: 0,
    };
    const volts = openCircuitVolts(pack(4), 1);
    const w = steadySpeed(volts, motor, 1.457807e-8);
    expect(Math.abs(w / speed - 1)).toBeLessThan(1e-6);
    expect(Math.abs((volts - motor.constant * w) / motor.resistance - current)).toBeLessThan(0.001);
  });
});
