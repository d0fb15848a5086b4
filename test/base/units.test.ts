import { describe, expect, test } from "vitest";
import { readQuantity as read } from "../../src/base/quantity.js";
import { D_UNIT, I_UNIT, KIND_NAMES, KINDS, kindOfUnit, P_UNIT, quantityText } from "../../src/base/units.js";

describe("conversions", () => {
  // NIST SP 811 (2008), appendix B: 1 in = 25.4 mm and 1 ft = 0.3048 m exactly, 0 degC = 273.15 K exactly,
  // 1 Ah = 3600 C, 1 km/h = 1/3.6 m/s, 1 rpm = 2 pi/60 rad/s, 1 deg = pi/180 rad. From memory; definitions.
  test.each([
    ["1 in", "length", 0.0254],
    ["5.1 in", "length", 0.12954],
    ["1 ft", "length", 0.3048],
    ["620 g", "mass", 0.62],
    ["45 %", "share", 0.45],
    ["1.0 ms", "duration", 0.001],
    ["250us", "duration", 0.00025],
    ["180 Hz", "frequency", 180],
    ["4 kHz", "frequency", 4000],
    ["1300 mAh", "charge", 4680],
    ["75 mohm", "resistance", 0.075],
    ["-5 degC", "temperature", 268.15],
    ["0 K", "temperature", 0],
    ["36 km/h", "speed", 10],
    ["1.25 vh", "wakeRatio", 1.25],
    ["4.2e-6 kg m^2", "inertia", 4.2e-6],
    ["42 g cm^2", "inertia", 4.2e-6],
    ["6 dB", "level", 6],
    ["60 rpm/V", "speedConstant", 2 * Math.PI],
    ["180 deg", "angle", Math.PI],
    ["180 deg/s", "rate", Math.PI],
    ["0.18 deg/s/sqrt(Hz)", "noiseDensity", Math.PI / 1000],
  ] as const)("%s", (text, kind, si) => {
    const reading = read(text, kind);
    expect(reading).toHaveProperty("value");
    expect("value" in reading ? reading.value : Number.NaN).toBeCloseTo(si, 14);
  });

  test("the units of the gains follow from the percent and the degree", () => {
    expect(P_UNIT * ((100 * Math.PI) / 180)).toBeCloseTo(0.01, 15);
    expect(I_UNIT * ((100 * Math.PI) / 180)).toBeCloseTo(0.01, 15);
    expect(D_UNIT * ((1000 * Math.PI) / 180)).toBeCloseTo(0.01, 15);
    expect(read("30 %/(100 deg/s)", "pGain")).toEqual({ value: 30 * P_UNIT });
    expect(read("40 % / (100 deg)", "iGain")).toEqual({ value: 40 * I_UNIT });
    expect(read("4 %/(1000 deg/s^2)", "dGain")).toEqual({ value: 4 * D_UNIT });
  });

  test("signs a keyboard may hold are read as the plain spelling", () => {
    expect(read("500 \u00b0/s", "rate")).toEqual(read("500 deg/s", "rate"));
    expect(read("-5 \u00b0C", "temperature")).toEqual(read("-5 degC", "temperature"));
    expect(read("4 kg\u00b7m\u00b2", "inertia")).toEqual(read("4 kg m^2", "inertia"));
    expect(read("250 \u00b5s", "duration")).toEqual(read("250 us", "duration"));
    expect(read("75 m\u03a9", "resistance")).toEqual(read("75 mohm", "resistance"));
    expect(read("6 g cm2", "inertia")).toEqual(read("6 g cm^2", "inertia"));
    expect(read("4 %/(1000 deg/s2)", "dGain")).toEqual(read("4 %/(1000 deg/s^2)", "dGain"));
    expect(read("0.01 \u00b0/s/\u221aHz", "noiseDensity")).toEqual(read("0.01 deg/s/sqrt(Hz)", "noiseDensity"));
    expect(read("\u22125\u00a0degC", "temperature")).toEqual(read("-5 degC", "temperature"));
  });
});

describe("the table of kinds", () => {
  test("no unit belongs to two kinds, so a unit names its kind", () => {
    const all = KIND_NAMES.flatMap((kind) => Object.keys(KINDS[kind].units).map((unit) => [unit, kind] as const));
    for (const [unit, kind] of all) expect([unit, kindOfUnit(unit)]).toEqual([unit, kind]);
  });

  test("every unit reads as its own kind, and is shown so that it reads back the same", () => {
    for (const kind of KIND_NAMES)
      for (const unit of Object.keys(KINDS[kind].units)) {
        const reading = read(`3 ${unit}`, kind);
        const value = "value" in reading ? reading.value : Number.NaN;
        const back = read(quantityText(value, kind, unit), kind);
        expect([unit, "value" in back ? back.value : back]).toEqual([unit, expect.closeTo(value, 12)]);
      }
  });
});

describe("saying a number", () => {
  test.each([
    [0.62, "mass", "620 g"],
    [1.1, "mass", "1.1 kg"],
    [0, "mass", "0 kg"],
    [0.12954, "length", "129.5 mm"],
    [0.25, "duration", "250 ms"],
    [2, "duration", "2 s"],
    [180, "frequency", "180 Hz"],
    [4000, "frequency", "4 kHz"],
    [Math.PI, "rate", "180 deg/s"],
    [268.15, "temperature", "-5 degC"],
    [4680, "charge", "1300 mAh"],
    [30 * P_UNIT, "pGain", "30 %/(100 deg/s)"],
    [4.2e-6, "inertia", "42 g cm^2"],
  ] as const)("%s as %s", (value, kind, text) => {
    expect(quantityText(value, kind)).toBe(text);
  });

  test("a given unit is used", () => {
    expect(quantityText(0.12954, "length", "in")).toBe("5.1 in");
  });
});
