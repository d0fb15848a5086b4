// A measure added to the catalogue: maps and baselines that were made before it are read, drawn, compared and gated, and
// what could not be judged is said.
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { lineJson } from "../../src/base/canonical.js";
import { ABSENCES, MEASURE_IDS, type MeasureId } from "../../src/base/measures.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { compareMaps } from "../../src/compare/compare.js";
import { parseBaseline } from "../../src/compare/parse-baseline.js";
import { compare } from "../../src/flow/compare.js";
import type { StabilityMap } from "../../src/map/format.js";
import { OLDER_MAP, unknownMeasures } from "../../src/map/older-measures.js";
import { parseMap } from "../../src/map/parse.js";
import {
  renderCard,
  renderComparison,
  renderCsv,
  renderDriftMarkdown,
  renderDriftTable,
  renderJunit,
  renderPage,
  renderSummary,
} from "../../src/report/index.js";
import { smallMap } from "../fixtures/report-map.js";
import { redigested } from "./remade.js";

let map = {} as StabilityMap;
beforeAll(async () => {
  map = JSON.parse(JSON.stringify((await smallMap()).map)) as StabilityMap;
});

/** Without a key, wherever it stands below. */
function without(value: unknown, id: MeasureId): unknown {
  if (Array.isArray(value)) return value.map((item) => without(item, id));
  if (typeof value !== "object" || value === null) return value;
  const rest = Object.entries(value).filter(([key]) => key !== id);
  return Object.fromEntries(rest.map(([key, item]) => [key, without(item, id)]));
}

/** As a version that did not know the measure would have written it; `boundary` lists crossings of two by name. */
function older(map: object, id: MeasureId): object {
  const bent = without(map, id) as { axes: Record<string, { boundary?: object; [key: string]: unknown }> };
  for (const [name, axis] of Object.entries((map as typeof bent).axes))
    for (const key of ["overshoot", "settling"]) {
      const lines = axis.boundary ?? axis;
      const into = (axis.boundary === undefined ? bent.axes[name] : bent.axes[name]?.boundary) as Record<
        string,
        unknown
      >;
      into[key] = key === id ? [] : (lines as Record<string, unknown>)[key];
    }
  return redigested(bent);
}

const documentOf = (data: object) => ({
  file: "map.json",
  data: JSON.parse(JSON.stringify(data)),
  place: () => ({ line: 0, column: 0 }),
});
const readMap = (data: object) => parseMap(documentOf(data));
const readBaseline = (data: object) => parseBaseline(documentOf(data));

describe("the reasons why a measure is absent", () => {
  it("keep their codes for good, for maps and baselines hold them", () => {
    expect(Object.fromEntries(ABSENCES.entries())).toEqual({
      0: "present",
      1: "this script does not show it",
      2: "never settles in the window",
      3: "no swing to measure",
      4: "never reaches the level",
      5: "too few swings to count",
      6: "the trial diverged",
      7: "the axis did not move",
      8: "older map, made before this measure was known",
      9: "sustained under a nudge, not simulated",
    });
  });
});

describe("a map that does not know a measure", () => {
  it("is read and drawn whichever it is, and says why it is not there", async () => {
    for (const id of MEASURE_IDS) {
      const read = readMap(older(map, id));
      expect([id, unknownMeasures(read)]).toEqual([id, [id]]);
      expect(read.limits[id]).toBe(null);
      expect(read.axes.pitch.absent[id].flat().every((code) => code === OLDER_MAP)).toBe(true);
      expect(renderCsv(read)).toContain("older map, made before this measure was known");
      expect(renderSummary(read)).not.toContain("undefined");
    }
    const read = readMap(older(map, "overshoot"));
    expect(await renderPage(read)).toContain("older map, made before this measure was known");
    expect(await renderCard(read)).not.toContain("undefined");
  });

  it("lacks it altogether: in one table alone it is missing", () => {
    const bent = structuredClone(map) as unknown as { axes: { roll: { measures: Record<string, unknown> } } };
    delete bent.axes.roll.measures.heat;
    expect(() => readMap(bent)).toThrow(/axes\.roll\.measures\.heat: missing/);
  });

  it("makes a baseline that does not know it either", () => {
    const baseline = baselineOf(readMap(older(map, "heat")));
    expect(baseline.limits).not.toHaveProperty("heat");
    expect(unknownMeasures(readBaseline(baseline))).toEqual(["heat"]);
  });
});

describe("two maps, one older than a measure", () => {
  it("are compared by the others, on either side and in every form, and it is said which was not judged", async () => {
    for (const id of MEASURE_IDS) {
      const read = readMap(older(map, id));
      for (const [base, candidate, side] of [
        [read, map, "base"],
        [map, read, "candidate"],
      ] as const) {
        const comparison = compare({ name: "a", map: base }, { name: "b", map: candidate }, { command: "" });
        const judged = map.limits[id] !== null;
        expect(comparison.drift.unjudgedMeasures).toEqual(judged ? [{ measure: id, unknownTo: side }] : []);
        if (!judged) continue;
        const words = `is not judged: the ${side} is an older map, made before this measure was known`;
        for (const text of [
          renderDriftTable(comparison.drift),
          renderDriftMarkdown(comparison.drift),
          renderJunit([comparison.drift]),
        ])
          expect(text).toContain(words);
        if (id === "overshoot") expect(await renderComparison(comparison)).toContain(words);
      }
    }
  });

  it("lose no safe ground to the newer side's limit: its points are judged without it", () => {
    const read = readMap(older(map, "heat"));
    const axes = structuredClone(map.axes) as unknown as Record<
      "roll" | "pitch",
      { safe: boolean[][]; verdict: string[][]; reasons: number[][]; measures: { heat: number[][] } }
    >;
    for (const { safe, verdict, reasons, measures } of Object.values(axes))
      for (const [i, row] of safe.entries())
        for (const [j, was] of row.entries()) {
          if (!was) continue;
          (measures.heat[i] as number[])[j] = 99;
          [(verdict[i] as string[])[j], (reasons[i] as number[])[j], row[j]] = ["hot", 2, false];
        }
    const hot = { ...map, axes } as unknown as StabilityMap;
    const judgedBoth = compareMaps(map, hot, { productVersion: "0", command: "" });
    const judgedAlike = compareMaps(read, hot, { productVersion: "0", command: "" });
    if ("differences" in judgedBoth || "differences" in judgedAlike) throw new Error("these can be compared");
    expect(judgedBoth.axes.roll.safe.lost).toBeGreaterThan(0);
    expect(judgedAlike.axes.roll.safe).toMatchObject({ lost: 0 });
    expect(judgedAlike.axes.roll.verdicts.worsened).toBe(0);
  });

  it("by an older baseline as well", () => {
    const baseline = readBaseline(older(JSON.parse(lineJson(baselineOf(map))), "overshoot"));
    const drift = compareMaps(baseline, map, { productVersion: "0", command: "" });
    expect(drift).toMatchObject({ unjudgedMeasures: [{ measure: "overshoot", unknownTo: "base" }] });
    expect("differences" in drift).toBe(false);
  });
});

describe("a shipped baseline older than a measure", () => {
  it("is read by the gate's rules: its question is that of today's sweep", () => {
    const text = readFileSync("reports/baselines/slow-loop/sandpiper-r1.json", "utf8");
    expect(unknownMeasures(readBaseline(older(JSON.parse(text), "commandNoise")))).toEqual(["commandNoise"]);
  });
});
