// Yaw and I of two maps side by side, from maps and from a baseline.
import { beforeAll, expect, test } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { compareMaps } from "../../src/compare/compare.js";
import type { Drift } from "../../src/compare/format.js";
import { parseBaseline } from "../../src/compare/parse-baseline.js";
import type { StabilityMap } from "../../src/map/format.js";
import type { YawStrip } from "../../src/map/strip-format.js";
import { stripsTable } from "../../src/report/comparison/strips-table.js";
import { stripsMap } from "../fixtures/strips-map.js";

let map: StabilityMap;
let yaw: YawStrip;
beforeAll(async () => {
  ({ map } = await stripsMap());
  yaw = map.strips?.yaw as YawStrip;
}, 60_000);

const driftOf = (base: StabilityMap, candidate: StabilityMap): Drift => {
  const drift = compareMaps(base, candidate, { productVersion: "0", command: "" });
  if ("differences" in drift) throw new Error(canonicalJson(drift.differences));
  return drift;
};

test("the gain to take and what passes are compared gain by gain", () => {
  const range = { ...(yaw.range as NonNullable<YawStrip["range"]>), to: 0.8 * (yaw.range?.to ?? 0) };
  const lower = { ...map, strips: { ...map.strips, yaw: { ...yaw, choice: null, range } } };
  const [first, ...others] = driftOf(map, lower).strips ?? [];
  expect(first).toMatchObject({
    gain: "Yaw P",
    before: { declared: 30, choice: yaw.choice },
    after: { choice: null },
    choicePercent: null,
  });
  expect(first?.toPercent).toBeCloseTo(-20, 9);
  expect(first?.fromPercent).toBe(0);
  expect(others.map(({ gain, choicePercent, toPercent }) => [gain, choicePercent, toPercent])).toEqual([
    ["Roll I", 0, 0],
    ["Pitch I", 0, 0],
  ]);
});

test("a baseline keeps them, and is read back with them", () => {
  const baseline = JSON.parse(canonicalJson(baselineOf(map)));
  const read = parseBaseline({ file: "b.json", data: baseline, place: () => ({ line: 0, column: 0 }) });
  expect(read.strips).toEqual(map.strips);
  expect(driftOf(read, map).strips?.map(({ toPercent }) => toPercent)).toEqual([0, 0, 0]);
});

test("strips within other limits are not compared", () => {
  const strict = { ...map, strips: { ...map.strips, yaw: { ...yaw, limits: { ...yaw.limits, rise: 100 } } } };
  expect(driftOf(map, strict).strips?.map(({ gain }) => gain)).toEqual(["Roll I", "Pitch I"]);
});

test("where a side judged none there is nothing to compare, and no table", async () => {
  const { strips: _, ...bare } = map;
  const drift = driftOf(bare, map);
  expect(drift.strips).toBeUndefined();
  expect(stripsTable(drift)).toBe("");
  const table = String(await stripsTable(driftOf(map, map)));
  expect(table.replace(/<[^>]*>/g, " ")).toContain(`${yaw.choice} instead of 30`);
});
