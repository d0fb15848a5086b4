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
import { renderComparison, renderDriftMarkdown, renderDriftTable, renderJunit } from "../../src/report/index.js";
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

const plain = (text: string): string => text.replaceAll("\u00a0", " ");

test("every form of the comparison has a row per gain, in the units the pilot types", async () => {
  const range = { ...(yaw.range as NonNullable<YawStrip["range"]>), to: 50 };
  const choice = yaw.choice ?? 0;
  const before = { ...map, strips: { ...map.strips, yaw: { ...yaw, oneUnit: 0.01, range } } };
  const after = {
    ...map,
    strips: { yaw: { ...yaw, oneUnit: 0.01, choice: 0.9 * choice, range: { ...range, to: 40 } } },
  };
  const drift = driftOf(before, after);
  const from = Number((100 * range.from).toPrecision(3));
  const [was, now] = [Math.round(100 * choice), Math.round(Number((90 * choice).toPrecision(3)))];
  const cells = [`${was} instead of 3000; ${from} to 5000 pass`, `${now} instead of 3000; ${from} to 4000 pass`];
  const row = ["Yaw P (100 = 1 % per 100 °/s)", ...cells, "−10 %", "−20 %"];
  const line = `${row[0]}: ${cells.join(" → ")} (gain −10 %, upper end −20 %)`;
  expect(plain(renderDriftMarkdown(drift))).toContain(`### Yaw and I\n`);
  expect(plain(renderDriftMarkdown(drift))).toContain(`| ${row.join(" | ")} |\n`);
  expect(plain(renderDriftTable(drift))).toContain(`\n${line}\n`);
  expect(plain(renderJunit([drift]))).toContain(`<property name="strip" value="${line}"/>`);
  const page = plain(await renderComparison({ drift, base: before, candidate: after }));
  expect(page).toContain('<li><a href="#strips">Yaw and I</a></li>');
  const text = page.replace(/<[^>]*>/g, "|").replace(/\|+/g, "|");
  expect(text).toContain(`|${row.join("|")}|`);
});

test("a range that the strip does not end is open above", () => {
  const range = { ...(yaw.range as NonNullable<YawStrip["range"]>), above: null };
  const open = { ...map, strips: { ...map.strips, yaw: { ...yaw, range } } };
  expect(plain(renderDriftTable(driftOf(map, open)))).toMatch(/^Yaw P, .* and up pass/m);
});

test("where a side judged none there is nothing to compare, and no table", async () => {
  const { strips: _, ...bare } = map;
  const drift = driftOf(bare, map);
  expect(drift.strips).toBeUndefined();
  expect(stripsTable(drift)).toBe("");
  expect(renderDriftTable(drift) + renderDriftMarkdown(drift)).not.toMatch(/^(### )?Yaw /m);
  expect(await renderComparison({ drift, base: bare, candidate: map })).not.toContain("#strips");
  const table = String(await stripsTable(driftOf(map, map)));
  expect(table.replace(/<[^>]*>/g, " ")).toContain(`${yaw.choice} instead of 30`);
});
