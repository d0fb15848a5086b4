import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readQuantity as read } from "../../src/base/quantity.js";
import { KIND_NAMES, type Kind } from "../../src/base/units.js";

const MASS = "expected a mass (unit: kg, g or mg)";
const LENGTH = "expected a length (unit: in, mm, cm, m, km or ft)";
const P = "expected a P gain (unit: %/(100 deg/s)";
const OWN_SCALE = "a controller's own number has another scale, see controller.one_unit)";

describe("what is wrong with a quantity", () => {
  test.each([
    ["5.1 kg", "length", "in", `5.1 kg is a mass, ${LENGTH}`],
    [5.1, "length", "in", `5.1 has no unit, ${LENGTH}`],
    ["5.1", "length", "in", `5.1 has no unit, ${LENGTH}`],
    ["5.1 wide", "length", "in", `"5.1 wide" has an unknown unit, ${LENGTH}`],
    ["wide", "length", "in", `"wide" is not a quantity, ${LENGTH}`],
    ["40 %/(100 deg/s)", "iGain", undefined, "40 %/(100 deg/s) is a P gain, expected an I gain (unit: %/(100 deg))"],
    [null, "mass", undefined, `an empty value is not a quantity, ${MASS}`],
    [["1 g"], "mass", undefined, `a list is not a quantity, ${MASS}`],
    [{ g: 1 }, "mass", undefined, `a group of keys is not a quantity, ${MASS}`],
    [true, "mass", undefined, `"true" is not a quantity, ${MASS}`],
    ["1e999 g", "mass", undefined, `1e999 is not a finite number, ${MASS}`],
    ["1e9999999 oz", "mass", undefined, `"1e9999999 oz" is in ounces, ${MASS}`],
    ["3 __proto__", "mass", undefined, `"3 __proto__" has an unknown unit, ${MASS}`],
    ["3 constructor", "mass", undefined, `"3 constructor" has an unknown unit, ${MASS}`],
    [`1${"0".repeat(80)} g`, "mass", undefined, `too long for a quantity, ${MASS}`],
  ] as const)("%s", (written, kind, preferred, fault) => {
    expect(read(written, kind, preferred)).toEqual({ fault });
  });

  // Each once gave a plausible but wrong value: five times the gain, a thousandth of the resistance.
  test.each([
    [45, "pGain", `45 has no unit, ${P}; ${OWN_SCALE}`],
    [0.12, "resistance", "0.12 has no unit, expected a resistance (unit: ohm or mohm)"],
    [4, "frequency", "4 has no unit, expected a frequency (unit: kHz or Hz)"],
    ["30 %", "pGain", `30 % is a share, ${P})`],
    ["1,300 mAh", "charge", COMMA("1,300 mAh", "expected a pack capacity (unit: mAh, Ah or C)")],
    ["1 300 mAh", "charge", '"1 300 mAh" is not a quantity, expected a pack capacity (unit: mAh, Ah or C)'],
    ["5'6\"", "length", '"5\'6"" is not a quantity, expected a length (unit: mm, cm, m, km, in or ft)'],
    ["75 MOHM", "resistance", '"75 MOHM" has an unknown unit, expected a resistance (unit: ohm or mohm)'],
    [
      "1/0 in",
      "length",
      '"1/0 in" is a fraction, where a decimal number is read, expected a length (unit: mm, cm, m, km, in or ft)',
    ],
    [
      "1/3 in",
      "length",
      '"1/3 in" is a fraction, where a decimal number is read, expected a length (unit: mm, cm, m, km, in or ft)',
    ],
  ] as const)("%s as %s: units alone, no value", (written, kind, fault) => {
    expect(read(written, kind)).toEqual({ fault });
  });

  test.each([
    ["9,5 g", "mass", COMMA("9,5 g", 'expected a mass (try "9.5 g")')],
    ["0,125 kg", "mass", COMMA("0,125 kg", 'expected a mass (try "0.125 kg")')],
    ["3.4 oz", "mass", '"3.4 oz" is in ounces, expected a mass (try "96.388378625 g")'],
    ["9,5 oz", "mass", COMMA("9,5 oz", 'expected a mass (try "269.3204696875 g")')],
    ["5.1 inch", "length", '"5.1 inch" spells its unit in another way, expected a length (try "5.1 in")'],
    [
      "5 1/8 in",
      "length",
      '"5 1/8 in" is a fraction, where a decimal number is read, expected a length (try "5.125 in")',
    ],
    [
      '5\u215b"',
      "length",
      '"5\u215b"" is a fraction, where a decimal number is read, expected a length (try "5.125 in")',
    ],
    [
      "-3/4 in",
      "length",
      '"-3/4 in" is a fraction, where a decimal number is read, expected a length (try "-0.75 in")',
    ],
    [
      "1950 KV",
      "speedConstant",
      '"1950 KV" spells its unit in another way, expected a motor speed constant (try "1950 rpm/V")',
    ],
    ["8 mph", "speed", '"8 mph" is in miles per hour, expected a speed (try "12.874752 km/h")'],
    ["6 kg cm2", "inertia", '"6 kg cm2" is in kg cm^2, expected a moment of inertia (try "6000 g cm^2")'],
  ] as const)("%s is offered as it can be read", (written, kind, fault) => {
    expect(read(written, kind)).toEqual({ fault });
  });
});

function COMMA(written: string, expected: string): string {
  return `"${written}" has a comma, where the decimal mark is a point and thousands have none, ${expected}`;
}

// Every unit by hand as an exact fraction of one of its dimension: NIST SP 811 (2008), appendix B; the ounce and pound
// avoirdupois, the inch, foot, mile and knot are exact by definition. From memory; definitions.
type Row = readonly [dimension: string, times: bigint, over?: bigint];
const UNITS: Readonly<Record<string, Row>> = {
  kg: ["mass", 1n],
  g: ["mass", 1n, 1000n],
  mg: ["mass", 1n, 1_000_000n],
  oz: ["mass", 28_349_523_125n, 1_000_000_000_000n],
  ounces: ["mass", 28_349_523_125n, 1_000_000_000_000n],
  lb: ["mass", 45_359_237n, 100_000_000n],
  grams: ["mass", 1n, 1000n],
  KG: ["mass", 1n, 1n],
  m: ["length", 1n],
  mm: ["length", 1n, 1000n],
  cm: ["length", 1n, 100n],
  km: ["length", 1000n],
  in: ["length", 254n, 10_000n],
  inch: ["length", 254n, 10_000n],
  '"': ["length", 254n, 10_000n],
  ft: ["length", 3048n, 10_000n],
  feet: ["length", 3048n, 10_000n],
  s: ["time", 1n],
  ms: ["time", 1n, 1000n],
  us: ["time", 1n, 1_000_000n],
  msec: ["time", 1n, 1000n],
  seconds: ["time", 1n],
  Hz: ["frequency", 1n],
  hz: ["frequency", 1n],
  kHz: ["frequency", 1000n],
  KHz: ["frequency", 1000n],
  MHz: ["frequency", 1_000_000n],
  deg: ["angle", 1n],
  degrees: ["angle", 1n],
  "deg/s": ["rate", 1n],
  dps: ["rate", 1n],
  rpm: ["rate", 6n],
  "m/s": ["speed", 1n],
  "km/h": ["speed", 1000n, 3600n],
  kph: ["speed", 1000n, 3600n],
  mph: ["speed", 1_609_344n, 3_600_000n],
  knots: ["speed", 1852n, 3600n],
  "ft/s": ["speed", 3048n, 10_000n],
  "kg m^2": ["inertia", 1n],
  kgm2: ["inertia", 1n],
  "g cm^2": ["inertia", 1n, 10_000_000n],
  gcm2: ["inertia", 1n, 10_000_000n],
  "g mm^2": ["inertia", 1n, 1_000_000_000n],
  "kg cm2": ["inertia", 1n, 10_000n],
  "g m^2": ["inertia", 1n, 1000n],
  "oz in^2": ["inertia", 28_349_523_125n * 64_516n, 10n ** 20n],
  "lb in^2": ["inertia", 45_359_237n * 64_516n, 10n ** 16n],
  ohm: ["resistance", 1n],
  Ohms: ["resistance", 1n],
  mohm: ["resistance", 1n, 1000n],
  MOhm: ["resistance", 1_000_000n],
  mOhm: ["resistance", 1n, 1000n],
  A: ["current", 1n],
  amps: ["current", 1n],
  mA: ["current", 1n, 1000n],
  MA: ["current", 1_000_000n],
  V: ["voltage", 1n],
  v: ["voltage", 1n],
  mV: ["voltage", 1n, 1000n],
  "rpm/V": ["speed constant", 1n],
  KV: ["speed constant", 1n],
  mAh: ["charge", 36n, 10n],
  mah: ["charge", 36n, 10n],
  Ah: ["charge", 3600n],
  AH: ["charge", 3600n],
  C: ["charge", 1n],
  "%": ["share", 1n],
  percent: ["share", 1n],
  dB: ["level", 1n],
  db: ["level", 1n],
  "deg/s/sqrt(Hz)": ["density", 1n],
  "mdps/sqrt(Hz)": ["density", 1n, 1000n],
  "%/(100 deg/s)": ["P", 1n],
  "%/(100 deg)": ["I", 1n],
  "%/(1000 deg/s^2)": ["D", 1n],
};

/** A number as written, with the fraction it stands for; null: more than one reading, or none. */
type Written = readonly [text: string, value: readonly [bigint, bigint] | null];
const digits = (most: number) => fc.bigInt({ min: 0n, max: 10n ** BigInt(most) });
const places = fc.tuple(digits(4), fc.string({ unit: fc.constantFrom(..."0123456789"), minLength: 1, maxLength: 6 }));
const numbers: fc.Arbitrary<Written> = fc.oneof(
  digits(5).map((integer): Written => [`${integer}`, [integer, 1n]]),
  places.map(
    ([integer, decimals]): Written => [
      `${integer}.${decimals}`,
      [BigInt(`${integer}${decimals}`), 10n ** BigInt(decimals.length)],
    ],
  ),
  places.map(([integer, decimals]): Written => {
    const grouped = decimals.length === 3 && integer > 0n && integer < 1000n;
    return [
      `${integer},${decimals}`,
      grouped ? null : [BigInt(`${integer}${decimals}`), 10n ** BigInt(decimals.length)],
    ];
  }),
  fc
    .tuple(digits(2), digits(2), fc.constantFrom(2n, 3n, 4n, 8n, 16n, 64n), fc.constantFrom(" ", "-", " - "))
    .map(
      ([integer, upper, lower, between]): Written => [
        `${integer}${between}${upper}/${lower}`,
        [integer * lower + upper, lower],
      ],
    ),
  fc.tuple(digits(3), digits(3)).map(([a, b]): Written => [`${a} ${b}`, null]),
  fc.constantFrom<Written>(
    ["1e3", [1000n, 1n]],
    ["1,234,5", null],
    ["1.2.3", null],
    [".5", [5n, 10n]],
    ["wide", null],
    ["", null],
  ),
);

test("a value that is offered is the written one to the last digit; else there are units alone", () => {
  let offers = 0;
  const texts = fc.tuple(numbers, fc.constantFrom("", " "), fc.constantFrom("", "wide", ...Object.keys(UNITS)));
  const property = fc.property(texts, fc.constantFrom<Kind>(...KIND_NAMES), ([[text, value], gap, unit], kind) => {
    const reading = read(`${text}${gap}${unit}`, kind);
    if ("value" in reading) return;
    const [, expected = ""] = /(expected .*)$/.exec(reading.fault) ?? [];
    const [, number, offered] = /\(try "(-?[\d.]+) (.+)"\)$/.exec(expected) ?? [];
    if (number === undefined || offered === undefined) {
      // no figure stands there but those of the gains' units
      expect(expected.replace(/\(unit: .*\)$/, "")).not.toMatch(/\d/);
      expect(expected.replace(/100 deg|1000 deg\/s\^2|kg m\^2|g [cm]m\^2/g, "")).not.toMatch(/\d/);
      return;
    }
    offers++;
    const [ours, theirs] = [UNITS[offered], UNITS[unit]];
    if (value === null || ours === undefined || theirs === undefined)
      throw new Error(`${text} ${unit}: ${reading.fault}`);
    expect([ours[0], "value" in read(`${number} ${offered}`, kind)]).toEqual([theirs[0], true]);
    const [, decimals = ""] = number.split(".");
    const left = BigInt(number.replace(".", "")) * ours[1] * value[1] * (theirs[2] ?? 1n);
    const right = value[0] * theirs[1] * 10n ** BigInt(decimals.length) * (ours[2] ?? 1n);
    expect([reading.fault, left]).toEqual([reading.fault, right]);
  });
  fc.assert(property, { seed: 20261128, numRuns: 20_000 });
  expect(offers).toBeGreaterThan(200);
});
