import { beforeAll, describe, expect, it } from "vitest";
import { P_UNIT } from "../../src/base/units.js";
import { compareMaps } from "../../src/compare/compare.js";
import type { StabilityMap } from "../../src/map/format.js";
import { FULL, TIRED } from "../fixtures/airframe.js";
import { simulatedMap } from "./maps.js";
import { put } from "./spoil.js";

let base = {} as StabilityMap;
beforeAll(async () => {
  base = await simulatedMap();
});

/** The base with parts of its plan's question changed. */
function withQuestion(...changes: readonly (readonly [path: string, value: unknown])[]): StabilityMap {
  const map = structuredClone(base) as StabilityMap;
  for (const [path, value] of changes) put(`plan.sweep.${path}`, value)(map);
  return map;
}

function differencesOf(candidate: StabilityMap) {
  const result = compareMaps(base, candidate, { productVersion: "0", command: "" });
  if (!("differences" in result)) throw new Error("these can be compared");
  return result.differences;
}

describe("comparable first", () => {
  it.each([
    ["grid.roll.p", "grid.roll.p.12", 51 * P_UNIT, "3 %/(100 deg/s) to 51 %/(100 deg/s) in 13 points"],
    ["seed", "seed", 8, "8"],
    ["limits.overshoot", "limits.overshoot", 20, "20"],
    ["margins.gain", "margins.gain", 4, "4 dB"],
    ["boundary_tolerance", "boundaryTolerance", 0.01, "1 %"],
    ["conditions.full.charge", "conditions.0.charge", 0.9, "90 %"],
    ["conditions.full.payload", "conditions.0.payload", { mass: 0.1, at: [0, 0, 0] }, "present"],
    ["conditions.cold", "conditions.2", { ...FULL, name: "cold" }, "present"],
    ["scripts.nudge.duration", "scripts.0.script.duration", 1.8, "1.8 s"],
    ["scripts.nudge.throttle[1]", "scripts.0.throttle.1", 0.8, "80 %"],
    ["pinned.roll.p", "pinned.roll.p", 16 * P_UNIT, "16 %/(100 deg/s)"],
    ["pinned.roll", "pinned", null, null],
    ["order", "conditions", [TIRED, FULL], "nudge, tired, full"],
  ] as const)("another %s is reported with both values", (key, path, value, after) => {
    const found = differencesOf(withQuestion([path, value]));
    expect(found.map((one) => one.key)).toContain(key);
    expect(found.find((one) => one.key === key)?.after).toBe(after);
    expect(found.find((one) => one.key === key)?.before).not.toBe(after);
    expect(found.length).toBeLessThanOrEqual(2);
  });

  it("takes names, titles, gates and the model's file for no difference", () => {
    const other = withQuestion(
      ["name", "x"],
      ["title", "y"],
      ["model", "z.yaml"],
      ["defaulted", ["seed: 1"]],
      ["gates.boundaryFall", 7],
    );
    const drift = compareMaps(base, other, { productVersion: "0", command: "" });
    expect("differences" in drift).toBe(false);
    expect(drift).toMatchObject({ notes: [expect.stringContaining("gates differ")] });
  });

  it("says when the two were made by different versions, or are two crafts", () => {
    const newer = { ...base, product: { name: "gainscape" as const, version: "9.9.9" } };
    const other = { ...base, airframe: { ...base.airframe, name: "Curlew" } };
    for (const [map, note] of [
      [newer, "different versions"],
      [other, "Two crafts"],
    ] as const)
      expect(compareMaps(base, map, { productVersion: "0", command: "" })).toMatchObject({
        notes: [expect.stringContaining(note)],
      });
  });
});
