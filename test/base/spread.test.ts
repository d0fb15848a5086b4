// How far a number may be off, as it is written. Coverage factor 2: JCGM 100:2008, 6.2 (from memory).
import { expect, it } from "vitest";
import { readMeasuredNumber, readMeasuredQuantity } from "../../src/base/spread.js";

const MOHM = { least: 0.001, most: 10, words: "1 mohm to 10 ohm" };
const resistance = (written: unknown) => readMeasuredQuantity(written, "resistance", MOHM, "mohm");
const PLACE = { least: -2, most: 2, words: "-2 m to 2 m" };
const place = (written: unknown) => readMeasuredQuantity(written, "length", PLACE, "mm");
const RANGE = { least: 0.005, most: 0.5, words: "a number from 0.005 to 0.5" };
const ct = (written: unknown) => readMeasuredNumber(written, RANGE);
const share = (written: unknown) =>
  readMeasuredQuantity(written, "share", { least: 0, most: 0.6, words: "0 % to 60 %" });

it.each([
  ["75 mohm", 0.075, null],
  ["75 mohm ± 20 %", 0.075, { law: "normal", size: 0.015 }],
  ["75 mohm +/- 20 %", 0.075, { law: "normal", size: 0.015 }],
  ["75 mohm±15 mohm", 0.075, { law: "normal", size: 0.015 }],
  ["75 ± 15 mohm", 0.075, { law: "normal", size: 0.015 }],
  ["75 mohm ± 0.015 ohm", 0.075, { law: "normal", size: 0.015 }],
  ["75 mohm ± 60 %", 0.075, { law: "log-normal", size: 0.6 }],
  ["75 mohm ± 45 mohm", 0.075, { law: "log-normal", size: 0.6 }],
  ["60 to 90 mohm", 0.075, { law: "uniform", size: 0.015 }],
  ["60 mohm to 0.09 ohm", 0.075, { law: "uniform", size: 0.015 }],
])("reads %s", (written, value, spread) => {
  const reading = resistance(written);
  if ("fault" in reading) throw new Error(reading.fault);
  expect(reading.value.value).toBeCloseTo(value, 12);
  expect(reading.value.spread?.law).toBe(spread?.law);
  if (spread !== null) expect(reading.value.spread?.size).toBeCloseTo(spread.size, 12);
});

it("reads a place, which may be negative, and takes a share of it as a length", () => {
  expect(place("-4 mm ± 2 mm")).toEqual({ value: { value: -0.004, spread: { law: "normal", size: 0.002 } } });
  expect(place("-4 mm ± 50 %")).toEqual({ value: { value: -0.004, spread: { law: "normal", size: 0.002 } } });
  expect(place("0 mm ± 2 mm")).toEqual({ value: { value: 0, spread: { law: "normal", size: 0.002 } } });
  expect(place("-4 to 8 mm")).toMatchObject({ value: { spread: { law: "uniform" } } });
});

it("reads a number without a unit", () => {
  expect(ct(0.156)).toEqual({ value: { value: 0.156, spread: null } });
  expect(ct("0.2 ± 5 %")).toEqual({ value: { value: 0.2, spread: { law: "normal", size: 0.2 * 0.05 } } });
  expect(ct("0.2 ± 0.01")).toEqual({ value: { value: 0.2, spread: { law: "normal", size: 0.01 } } });
  expect(ct("0.1 to 0.2")).toMatchObject({ value: { spread: { law: "uniform" } } });
});

it("takes the percentage beside a share in the share's own unit", () => {
  expect(share("16 % ± 5 %")).toMatchObject({ value: { value: 0.16, spread: { law: "log-normal", size: 0.3125 } } });
  expect(share("10 % ± 1 %")).toMatchObject({ value: { value: 0.1, spread: { law: "normal", size: 0.01 } } });
});

it.each([
  [resistance, "75 mohm ± 0 %", "± 0 % is no spread; leave it out where the number is exact"],
  [resistance, "75 mohm ± -5 %", "-5 % is a share, expected a resistance (unit: mohm or ohm)"],
  [resistance, "75 mohm ± 20", "20 has no unit, expected a resistance (unit: mohm or ohm)"],
  [resistance, "75 mohm ± 20 g", "20 g is a mass, expected a resistance (unit: mohm or ohm)"],
  [resistance, "75 mohm ± 2000 %", "± 2000 % is more than 10 times the number; expected less"],
  [resistance, "90 to 60 mohm", "90 to 60 mohm does not rise; expected the smaller number first"],
  [resistance, "60 mohm to 20 ohm", "20 ohm is out of range, expected 1 mohm to 10 ohm"],
  [resistance, "0.5 mohm ± 20 %", "0.5 mohm is out of range, expected 1 mohm to 10 ohm"],
  [place, "0 mm ± 20 %", 'a share of 0 is 0; give the spread in the unit of the number (try "± 1 mm")'],
  [ct, "0.2 ± x", '"x" is not a number, expected a number from 0.005 to 0.5'],
])("refuses %# in one line", (read, written, fault) => {
  expect(read(written)).toEqual({ fault });
});
