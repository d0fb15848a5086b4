import { describe, expect, test } from "vitest";
import { D_UNIT, I_UNIT, KIND_NAMES, KINDS, kindOfUnit, P_UNIT, readQuantity, say } from "../../src/base/units.js";

const read = (text: unknown, kind: Parameters<typeof readQuantity>[1], preferred?: string) =>
  readQuantity(text, kind, preferred);

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
  });
});

describe("the table of kinds", () => {
  test("no unit belongs to two kinds, so a unit names its kind", () => {
    const all = KIND_NAMES.flatMap((kind) => Object.keys(KINDS[kind].units).map((unit) => [unit, kind] as const));
    for (const [unit, kind] of all) expect([unit, kindOfUnit(unit)]).toEqual([unit, kind]);
  });

  test("every example reads as its own kind, and is shown so that it reads back the same", () => {
    for (const kind of KIND_NAMES) {
      const reading = read(KINDS[kind].example, kind);
      const value = "value" in reading ? reading.value : Number.NaN;
      const back = read(say(value, kind), kind);
      expect([kind, "value" in back ? back.value : back]).toEqual([kind, expect.closeTo(value, 12)]);
    }
  });
});

describe("what is wrong with a quantity", () => {
  test.each([
    ["5.1 kg", "length", "in", '5.1 kg is a mass, expected a length (try "5.1 in")'],
    [5.1, "length", "in", '5.1 has no unit, expected a length (try "5.1 in")'],
    ["5.1", "length", "in", '5.1 has no unit, expected a length (try "5.1 in")'],
    ["5.1 inch", "length", "in", '"5.1 inch" has a unit nobody here knows, expected a length (try "5.1 in")'],
    ["wide", "length", undefined, '"wide" is no quantity, expected a length (try "150 mm")'],
    ["40 %/(100 deg/s)", "iGain", undefined, '40 %/(100 deg/s) is a P gain, expected an I gain (try "40 %/(100 deg)")'],
    [null, "mass", undefined, 'an empty value is no quantity, expected a mass (try "620 g")'],
    [["1 g"], "mass", undefined, 'a list is no quantity, expected a mass (try "620 g")'],
    [{ g: 1 }, "mass", undefined, 'a group of keys is no quantity, expected a mass (try "620 g")'],
    [true, "mass", undefined, '"true" is no quantity, expected a mass (try "620 g")'],
    ["1e999 g", "mass", undefined, '1e999 is no finite number, expected a mass (try "620 g")'],
    ["3 __proto__", "mass", undefined, '"3 __proto__" has a unit nobody here knows, expected a mass (try "3 g")'],
    ["3 constructor", "mass", undefined, '"3 constructor" has a unit nobody here knows, expected a mass (try "3 g")'],
    [`1${"0".repeat(80)} g`, "mass", undefined, 'too long for a quantity, expected a mass (try "620 g")'],
  ] as const)("%s", (written, kind, preferred, fault) => {
    expect(read(written, kind, preferred)).toEqual({ fault });
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
    expect(say(value, kind)).toBe(text);
  });

  test("a given unit is kept", () => {
    expect(say(0.12954, "length", "in")).toBe("5.1 in");
  });
});
