// Notches on their way from a model's text to what simulates them and to map.json.
import { describe, expect, test } from "vitest";
import { gyroChain, slopeChain } from "../../src/airframe/filter.js";
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
const both = () =>
  parse(
    "notch: [{centre: 210 Hz, width: 0.06 kHz}], ",
    "  rate_derivative_notch: [{centre: 90 Hz, width: 20 Hz}, {centre: 1 kHz, width: 1 Hz}]\n",
  );

describe("notches of a model", () => {
  test("stand in their chains, in Hz", () => {
    expect(gyroChain(both())).toEqual([{ centre: 210, width: 60 }]);
    expect(slopeChain(both())).toEqual([
      { centre: 90, width: 20 },
      { centre: 1000, width: 1 },
    ]);
  });

  test("a model without any holds no trace of them, and keeps its format", () => {
    expect(JSON.stringify(parse(""))).not.toMatch(/notch/i);
    expect(JSON.stringify(parse("notch: [], "))).not.toMatch(/notch/i);
    expect(modelFormat(parse(""))).toBe("gainscape.resolved-model/1");
    expect(modelFormat(both())).toBe("gainscape.resolved-model/2");
  });

  test("are read back from a map, and refused where no file could have them", () => {
    const stored = (width: number) => {
      const model = { ...both(), sensing: { ...both().sensing, notch: [{ centre: 210, width }] } };
      const plain = JSON.parse(JSON.stringify({ ...model, controller: { ...model.controller, substeps: 1 } }));
      return storedModel().safeParse(plain).success;
    };
    expect([stored(60), stored(0)]).toEqual([true, false]);
  });

  test("the sheet lists their delays, width/(2 pi centre^2)", () => {
    const delays = sheetOf(both()).delays.filter(({ key }) => key.includes("notch"));
    expect(delays.map(({ key, title, ofDAlone }) => [key, title, ofDAlone])).toEqual([
      ["sensing.notch[0]", "gyro notch 210 Hz, 60 Hz wide", false],
      ["controller.rate_derivative_notch[0]", "notch of D 90 Hz, 20 Hz wide", true],
      ["controller.rate_derivative_notch[1]", "notch of D 1000 Hz, 1 Hz wide", true],
    ]);
    expect((delays[0]?.ms ?? 0) / ((1000 * 60) / (2 * Math.PI * 210 ** 2))).toBeCloseTo(1, 1);
  });

  test.each([
    ["centre: 2 kHz, width: 20 Hz", /notch\[0\]\.centre: 2 kHz is not below half the loop rate/],
    ["centre: 200 Hz, width: 3 kHz", /notch\[0\]\.width: 3 kHz is not below half the loop rate/],
    ["centre: 200 Hz", /notch\[0\]\.width/],
    ["centre: 200 Hz, width: 0 Hz", /notch\[0\]\.width/],
  ])("%s is refused", (notch, message) => {
    const complaint = () => parse(`notch: [{${notch}}], `);
    expect(complaint).toThrow(InputError);
    expect(complaint).toThrow(message);
  });
});
