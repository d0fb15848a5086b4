// Filter stages that move on their way from a model's text to where they stand, to the sheet and to map.json.
import { describe, expect, test } from "vitest";
import { gyroChainAt, slopeChainAt, stageAt } from "../../src/airframe/moving-filter.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { storedModel } from "../../src/airframe/stored-shape.js";
import { InputError } from "../../src/base/problem.js";
import { readYaml } from "../../src/files/yaml.js";
import { modelFormat } from "../../src/map/simulable.js";
import { sheetOf } from "../../src/sheet/sheet.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const parse = (gyro: string, slope = "") =>
  parseAirframe(
    readYaml(
      "x.yaml",
      changed(SMALL_MODEL, ["sensing: {noise", `sensing: {${gyro}noise`], ["  idle: 6 %\n", `  idle: 6 %\n${slope}`]),
    ),
  );
const CORNERS = "[{throttle: 20 %, cutoff: 150 Hz}, {throttle: 70 %, cutoff: 0.3 kHz}]";
const both = () =>
  parse(
    `notch: [{centre: 900 Hz, width: 90 Hz}], tracking_notch: [{harmonic: 2, width: 30 %, lowest: 80 Hz}], low_pass_schedule: [{order: 1, corners: ${CORNERS}}], `,
    `  rate_derivative_filter_schedule: [{order: 2, corners: ${CORNERS}}]\n  rate_derivative_tracking_notch: [{harmonic: 1, width: 20 %, lowest: 1 kHz}]\n`,
  );
const at = (throttle: number, turns: number) => ({
  throttle,
  speeds: [1.1, 0.9].map((one) => one * 2 * Math.PI * turns),
});

describe("where stages stand", () => {
  test("behind the fixed ones, low-passes first: corners on straight lines, flat outside; notches on the mean rotor's harmonic", () => {
    const gyro = (throttle: number) => gyroChainAt(both(), at(throttle, 100));
    expect(gyro(0.45).map((stage) => Object.keys(stage)[0])).toEqual(["centre", "order", "centre"]);
    const cutoffs = [0, 0.2, 0.45, 0.7, 1].map((throttle) => (gyro(throttle)[1] as { cutoff: number }).cutoff);
    for (const [k, wanted] of [150, 150, 225, 300, 300].entries()) expect(cutoffs[k]).toBeCloseTo(wanted, 10);
    const notch = gyro(0.5)[2] as { centre: number; width: number };
    expect([notch.centre, notch.width].map((one) => Math.round(one * 1e9) / 1e9)).toEqual([200, 60]);
  });

  test("a notch comes no lower than its limit, and no nearer to half the loop's rate than 49 of 50", () => {
    const places = [0, 30, 40, 41, 900, 1500].map((turns) => gyroChainAt(both(), at(0.5, turns))[2]);
    const centres = places.map((stage) => (stage as { centre: number }).centre);
    for (const [k, wanted] of [80, 80, 80, 82, 1800, 1960].entries()) expect(centres[k]).toBeCloseTo(wanted, 9);
    expect(slopeChainAt(both(), at(0.5, 100))[1]).toEqual({ centre: 1000, width: 200 });
  });

  test("the widest notch at the highest place still fits the loop's rate", () => {
    const { centre, width } = stageAt({ harmonic: 20, width: 1, lowest: 10 }, 0.5, 1e5, both()) as {
      centre: number;
      width: number;
    };
    expect(Math.max(centre, width)).toBeLessThan(2000);
  });
});

test("a model without any holds no trace of them, and keeps its format", () => {
  const traces = /tracking|[Ff]ilterSchedule|lowPassSchedule/;
  expect(JSON.stringify(parse(""))).not.toMatch(traces);
  expect(JSON.stringify(parse("low_pass_schedule: [], tracking_notch: [], "))).not.toMatch(traces);
  expect(modelFormat(parse(""))).toBe("gainscape.resolved-model/1");
  expect(modelFormat(both())).toBe("gainscape.resolved-model/2");
});

test("are read back from a map, and refused where no file could have them", () => {
  const stored = (width: number) => {
    const model = { ...both(), sensing: { ...both().sensing, trackingNotch: [{ harmonic: 1, width, lowest: 80 }] } };
    const plain = JSON.parse(JSON.stringify({ ...model, controller: { ...model.controller, substeps: 1 } }));
    const read = storedModel().safeParse(plain);
    return read.success ? (read.data as unknown as typeof model).sensing.trackingNotch : null;
  };
  expect(stored(0.3)).toEqual([{ harmonic: 1, width: 0.3, lowest: 80 }]);
  expect(stored(1.5)).toBeNull();
});

test("the sheet says where each stands in hover and lists its delay, and that a notch waits at its limit", () => {
  const sheet = sheetOf(both());
  const turns = sheet.hover.rotorSpeedRpm / 60;
  const corner = 150 + ((sheet.hover.throttlePercent - 20) / 50) * 150;
  const moving = sheet.delays.filter(({ key }) => /tracking|schedule/.test(key));
  expect(moving.map(({ key, ofDAlone }) => [key, ofDAlone])).toEqual([
    ["sensing.low_pass_schedule[0]", false],
    ["sensing.tracking_notch[0]", false],
    ["controller.rate_derivative_filter_schedule[0]", true],
    ["controller.rate_derivative_tracking_notch[0]", true],
  ]);
  const [lowPass, notch, , waiting] = moving;
  expect(lowPass?.title).toMatch(/^gyro low-pass that goes with throttle, [\d.]+ Hz in hover, order 1$/);
  expect(notch?.title).toMatch(/^gyro notch on 2 times rotor speed, [\d.]+ Hz in hover, [\d.]+ Hz wide$/);
  expect(waiting?.title).toBe("notch of D on 1 times rotor speed, at its lowest, 1000 Hz, in hover, 200 Hz wide");
  // Textbook delays at rest: 1/(2 pi corner), width/(2 pi centre^2).
  expect((lowPass?.ms ?? 0) / (1000 / 2 / Math.PI / corner)).toBeCloseTo(1, 1);
  expect((notch?.ms ?? 0) / ((1000 * 0.3) / 2 / Math.PI / (2 * turns))).toBeCloseTo(1, 1);
});

describe("bad input", () => {
  test.each([
    [
      "tracking_notch: [{harmonic: 1, width: 30 %, lowest: 2 kHz}]",
      /tracking_notch\[0\]\.lowest: 2 kHz is not below half/,
    ],
    ["tracking_notch: [{width: 30 %, lowest: 80 Hz}]", /tracking_notch\[0\]\.harmonic/],
    ["tracking_notch: [{harmonic: 1, width: 60 Hz, lowest: 80 Hz}]", /tracking_notch\[0\]\.width/],
    ["tracking_notch: [{harmonic: 1, width: 120 %, lowest: 80 Hz}]", /tracking_notch\[0\]\.width/],
    ["low_pass_schedule: [{order: 2, corners: []}]", /low_pass_schedule\[0\]\.corners/],
    ["low_pass_schedule: [{order: 2, cutoff: 200 Hz}]", /low_pass_schedule\[0\]\.corners/],
    [
      "low_pass_schedule: [{order: 2, corners: [{throttle: 20 %, cutoff: 2.5 kHz}]}]",
      /corners\[0\]\.cutoff: 2\.5 kHz is not below half the loop rate, 2 kHz/,
    ],
    [
      "low_pass_schedule: [{order: 2, corners: [{throttle: 60 %, cutoff: 100 Hz}, {throttle: 20 %, cutoff: 90 Hz}]}]",
      /corners\[1\]\.throttle: expected to rise/,
    ],
  ])("%s is refused", (given, message) => {
    const complaint = () => parse(`${given}, `);
    expect(complaint).toThrow(InputError);
    expect(complaint).toThrow(message);
  });

  test("is shown by line and column, in D's chain too", () => {
    const falling = "[{throttle: 60 %, cutoff: 100 Hz}, {throttle: 20 %, cutoff: 3 kHz}]";
    const complaint = () => parse("", `  rate_derivative_filter_schedule: [{order: 2, corners: ${falling}}]\n`);
    const line = SMALL_MODEL.split("\n").indexOf("  idle: 6 %") + 2;
    expect(complaint).toThrow(new RegExp(`x\\.yaml:${line}:\\d+.*corners\\[1\\]\\.throttle: expected to rise`));
    expect(complaint).toThrow(new RegExp(`x\\.yaml:${line}:\\d+.*corners\\[1\\]\\.cutoff: 3 kHz is not below half`));
  });
});
