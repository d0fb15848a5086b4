import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import type { Spread } from "../../src/base/spread.js";
import { I_UNIT } from "../../src/base/units.js";
import { modelChanges } from "../../src/compare/model-changes.js";
import { stretchedX } from "../fixtures/airframe.js";
import { put } from "./spoil.js";

function changed(...bends: readonly ((model: unknown) => void)[]) {
  const model = structuredClone(stretchedX) as Airframe;
  for (const bend of bends) bend(model);
  return modelChanges(stretchedX, model);
}

describe("what changed in a model", () => {
  it.each([
    ["propeller.diameter", put("propeller.diameter", 0.12954), "5 in", "5.1 in"],
    ["motor.kv", put("motor.constant", 60 / (2 * Math.PI * 1300)), "1950 rpm/V", "1300 rpm/V"],
    ["propeller: slope of cp over j (from propeller.table)", put("propeller.cpSlope", -0.06), "-0.02", "-0.06"],
    ["pack.cells", put("pack.cells", 6), "4", "6"],
    ["pack.capacity", put("pack.capacity", 3600), "1300 mAh", "1000 mAh"],
    ["controller.latency", put("controller.latency", 2e-3), "1 ms", "2 ms"],
    ["controller.gains.roll.i", put("controller.roll.i", 20 * I_UNIT), "40 %/(100 deg)", "20 %/(100 deg)"],
    ["controller.one_unit", put("controller.scale", { p: 1, d: 1 }), "none", "present"],
    ["sensing.noise", put("sensing.noiseDensity", Math.PI / 9000), "0.01 deg/s/sqrt(Hz)", "0.02 deg/s/sqrt(Hz)"],
    ["rotors[0].spin", put("rotors.0.spin", 1), "cw", "ccw"],
    ["mass", put("mass", 0.7), "620 g", "700 g"],
    ["inertia.xx", put("inertia.xx", 1.4e-3), "13000 g cm^2", "14000 g cm^2"],
    ["wash.rms", put("wash.rms", 0.16), "12 %", "16 %"],
  ])("%s in the words of a model file", (key, change, before, after) => {
    expect(changed(change)).toEqual([{ key, before, after }]);
  });

  it("names a spread by its number, and says how far off it may be", () => {
    const spread = (size: number, nominal = 0.075): Spread => ({
      key: "motor.resistance",
      nominal,
      law: "normal",
      size,
      least: 0,
      most: 1,
    });
    const between = (before: readonly Spread[], after: readonly Spread[]) =>
      modelChanges({ ...stretchedX, spreads: before }, { ...stretchedX, spreads: after });
    expect(between([spread(0.015)], [spread(0.0075)])).toEqual([
      { key: "motor.resistance ±", before: "20 %", after: "10 %" },
    ]);
    expect(between([spread(0.015)], [])).toEqual([{ key: "motor.resistance ±", before: "20 %", after: "none" }]);
    expect(between([spread(0.015)], [{ ...spread(0.4), law: "log-normal" }])).toEqual([
      { key: "motor.resistance ±", before: "20 %", after: "40 %" },
    ]);
    expect(between([], [{ ...spread(0.002, 0), key: "rotors[0].at[1]" }])).toEqual([
      { key: "rotors[0].at[1] ±", before: "none", after: "2 mm" },
    ]);
    expect(between([spread(0.015)], [{ ...spread(0.015), law: "uniform" }])).toEqual([
      { key: "motor.resistance ±", before: "20 %", after: "20 %, anywhere between" },
    ]);
  });

  it("names pairs of numbers that go together otherwise, those that differ most and how many more", () => {
    const pair = (one: string, other: string, correlation: number) => ({ one, other, correlation });
    const between = (before: readonly object[], after: readonly object[]) =>
      modelChanges({ ...stretchedX, correlations: before }, { ...stretchedX, correlations: after });
    expect(between([pair("a", "b", 0.5), pair("a", "c", 0.1)], [pair("b", "a", 0.5), pair("b", "c", -0.3)])).toEqual([
      { key: "b with c", before: "none", after: "-0.3" },
      { key: "a with c", before: "0.1", after: "none" },
    ]);
    const many = Array.from({ length: 30 }, (_, k) => pair("a", `b${k}`, (k + 1) / 100));
    const changes = modelChanges(stretchedX, { ...stretchedX, correlations: many });
    expect(changes).toHaveLength(9);
    expect([changes[0], changes[8]]).toEqual([
      { key: "a with b29", before: "none", after: "0.3" },
      { key: "correlations, 22 pairs more", before: "0 pairs in all", after: "30 pairs in all" },
    ]);
  });

  it("is nothing between a model and itself, and no matter of version, title or rounding", () => {
    expect(modelChanges(stretchedX, stretchedX)).toEqual([]);
    expect(changed(put("version", "9"), put("title", "x"), put("defaulted", ["wash.rms: 12 %"]))).toEqual([]);
    expect(changed(put("inertia.xy", 3e-22))).toEqual([]);
  });

  it("reports a part that was added and one that was removed", () => {
    const [more] = changed(put("sensing.lowPass.1", { order: 1, cutoff: 300 }));
    expect(more).toEqual({ key: "sensing.low_pass[1]", before: null, after: "present" });
    const [gone] = changed(put("controller.derivativeFilter", []));
    expect(gone).toEqual({ key: "controller.rate_derivative_filter[0]", before: "present", after: null });
  });

  it("takes a key that means something to the language for any other", () => {
    const [one] = changed(put("toString", 1.5));
    expect(one).toMatchObject({ key: "to_string", after: "1.5" });
  });

  it("shows all digits where four figures look alike", () => {
    const [one] = changed(put("mass", 0.62001));
    expect(one).toEqual({ key: "mass", before: "0.62 (SI)", after: "0.62001 (SI)" });
  });

  it("puts what was written before what follows from it", () => {
    const bends = [put("mass", 0.7), put("inertia.xx", 1.4e-3), put("propeller.ct", 0.17)];
    const keys = changed(...bends).map(({ key }) => key);
    expect(keys).toEqual(["propeller.ct", "mass", "inertia.xx"]);
  });
});
