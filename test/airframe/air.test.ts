import { describe, expect, it } from "vitest";
import { airDensity, standardAir } from "../../src/airframe/air.js";

const near = (value: number, expected: number, relative: number): void => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);
};

describe("standard atmosphere, geopotential altitude", () => {
  // ISO 2533:1975 / US Standard Atmosphere 1976 tables, quoted alike in four public test suites, recomputed.
  it.each([
    [0, 288.15, 101325.0, 1.225],
    [500, 284.9, 95460.84, 1.167269],
    [1000, 281.65, 89874.56, 1.111643],
    [1500, 278.4, 84555.99, 1.058067],
    [2000, 275.15, 79495.2, 1.00649],
    [2500, 271.9, 74682.52, 0.956859],
    [3000, 268.65, 70108.53, 0.909122],
    [4000, 262.15, 61640.21, 0.819129],
    [5000, 255.65, 54019.89, 0.736116],
    [11000, 216.65, 22632.04, 0.363918],
  ])("%d m: %d K, %d Pa, %d kg/m^3", (altitude, temperature, pressure, density) => {
    const air = standardAir(altitude);
    expect(air.temperature).toBeCloseTo(temperature, 9);
    expect(Math.abs(air.pressure - pressure)).toBeLessThan(0.02);
    near(air.density, density, 2e-6);
    near(airDensity(altitude, null), density, 2e-6);
  });

  // The same standard tabulated at geometric altitude Z, H = Re Z/(Re + Z), Re 6 356 766 m: quoted and recomputed.
  it.each([
    [1000, 89876.28, 1.11166],
    [2000, 79501.41, 1.006554],
    [5000, 54048.26, 0.736429],
  ])("geometric %d m is a slightly lower geopotential altitude", (z, pressure, density) => {
    const air = standardAir((6356766 * z) / (6356766 + z));
    expect(Math.abs(air.pressure - pressure)).toBeLessThan(0.02);
    near(air.density, density, 2e-6);
    expect(Math.abs(standardAir(z).pressure - pressure)).toBeGreaterThan(1);
  });
});

describe("a warm or cold day at the same pressure", () => {
  // Ideal gas law on the table above; recomputed.
  it.each([
    [0, -20, 1.316367],
    [0, 15, 1.164386],
    [0, 20, 1.145493],
    [1500, 20, 0.987151],
    [1500, -15, 1.118322],
    [2000, 20, 0.938288],
  ])("%d m and %d K off standard: %d kg/m^3", (altitude, offset, density) => {
    near(airDensity(altitude, standardAir(altitude).temperature + offset), density, 2e-6);
  });
});

describe("outside what the law covers", () => {
  it.each([-2001, 11001, NaN, Infinity])("%d m is refused", (altitude) => {
    expect(() => standardAir(altitude)).toThrow(/outside -2000 to 11000 m/);
  });

  it("a temperature at or below absolute zero is refused", () => {
    expect(() => airDensity(0, 0)).toThrow(/absolute zero/);
  });
});
