// A sweep whose pitch has other lines than roll: simulated, written, read back, drawn, compared and simulated in the page.
import { beforeAll, describe, expect, it } from "vitest";
import { lineJson } from "../../src/base/canonical.js";
import { MEASURE_IDS } from "../../src/base/measures.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { frameOf } from "../../src/charts/frame.js";
import { viewOf } from "../../src/charts/view.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { parseBaseline } from "../../src/compare/parse-baseline.js";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { levelMap } from "../../src/page/level-map.js";
import { pageMapOf } from "../../src/page/page-map.js";
import { simulatorOf } from "../../src/page/simulator.js";
import { siGains } from "../../src/page/trial/trial.js";
import { pageData } from "../../src/page-data/data.js";
import { renderCard, renderComparison, renderCsv, renderPage, renderSummary } from "../../src/report/index.js";
import type { GainGrid } from "../../src/sweep/sweep.js";
import { driftOf, simulatedMap } from "../compare/maps.js";
import { stretchedX } from "../fixtures/airframe.js";

const si = (p: readonly number[], d: readonly number[]): GainGrid => ({
  p: p.map((one) => one * P_UNIT),
  d: d.map((one) => one * D_UNIT),
});
const ROLL = [3, 7, 11, 15, 19, 27, 35, 47];
const PITCH = [5, 7, 9, 13, 21, 40, 60];
const grid = { roll: si(ROLL, [0, 0.5, 1, 2]), pitch: si(PITCH, [0, 0.25, 1]) };

let map = {} as StabilityMap;
let rollEverywhere = {} as StabilityMap;
beforeAll(async () => {
  map = await simulatedMap(stretchedX, { grid });
  rollEverywhere = await simulatedMap(stretchedX, { grid: { roll: grid.roll, pitch: grid.roll } });
});

const documentOf = (text: string) => ({
  file: "map.json",
  data: JSON.parse(text),
  place: () => ({ line: 0, column: 0 }),
});

describe("a map whose axes have grids of their own", () => {
  it("has the tables of each axis over its own lines, roll as if pitch had the same", () => {
    expect(map.axes.roll.grid).toEqual({ p: ROLL, d: [0, 0.5, 1, 2] });
    expect(map.axes.pitch.grid).toEqual({ p: PITCH, d: [0, 0.25, 1] });
    expect(map.axes.pitch.verdict).toHaveLength(3);
    expect(map.axes.pitch.verdict.every((row) => row.length === PITCH.length)).toBe(true);
    expect(map.axes.pitch.boundary.sustained.map(({ d }) => d)).toEqual([0, 0.25, 1]);
    expect(map.axes.roll).toEqual(rollEverywhere.axes.roll);
  });

  it("is read back as it was, from map.json and from a baseline", () => {
    expect(parseMap(documentOf(JSON.stringify(map)))).toEqual(map);
    const read = parseBaseline(documentOf(lineJson(baselineOf(map))));
    for (const axis of ["roll", "pitch"] as const) {
      expect(read.axes[axis].grid).toEqual(map.axes[axis].grid);
      expect(read.axes[axis].verdict).toEqual(map.axes[axis].verdict);
      expect(read.axes[axis].safe).toEqual(map.axes[axis].safe);
    }
    expect(driftOf(read, map).outcome).toBe("pass");
  });

  it("has a row in points.csv for each of its own points", () => {
    const rows = renderCsv(map).trim().split("\n").slice(1);
    const places = (axis: string) =>
      rows.filter((row) => row.startsWith(`${axis},`)).map((row) => row.split(",").slice(1, 3).join(" "));
    expect(places("roll")).toEqual([0, 0.5, 1, 2].flatMap((d) => ROLL.map((p) => `${p} ${d}`)));
    expect(places("pitch")).toEqual([0, 0.25, 1].flatMap((d) => PITCH.map((p) => `${p} ${d}`)));
  });

  it("is drawn in each axis's own frame, and says both sizes", async () => {
    const view = viewOf(map);
    for (const axis of ["roll", "pitch"] as const) {
      const { d } = frameOf(view.axes[axis].grid, 100, 100);
      expect(d[1]).toBeLessThanOrEqual(map.axes[axis].grid.d.at(-1) as number);
    }
    const sizes = "8 \u00d7 4 points (roll), 7 \u00d7 3 points (pitch)";
    expect(renderSummary(map)).toContain(sizes);
    const page = await renderPage(map);
    expect(page).toContain("32 pairs of P and D (roll), 21 pairs of P and D (pitch)");
    expect(page).not.toMatch(/NaN|undefined/);
    expect(await renderCard(map)).not.toMatch(/NaN|undefined/);
  });

  it("is compared with another one of the same grids, and with one of other lines it is not", async () => {
    const drift = driftOf(map, map);
    expect(drift.axes.pitch.safe.points).toHaveLength(3);
    expect(drift.axes.pitch.shift.perD.map(({ d }) => d)).toEqual([0, 0.25, 1]);
    expect(await renderComparison({ drift, base: map, candidate: map })).not.toMatch(/NaN|undefined/);
    expect(() => driftOf(map, rollEverywhere)).toThrow("grid.pitch.p, grid.pitch.d");
  });

  it("is simulated in the page at each axis's own gains, bit for bit", async () => {
    const data = pageData(map);
    const pageMap = pageMapOf(JSON.parse(JSON.stringify(data)));
    const simulator = simulatorOf(data.simulation as NonNullable<typeof data.simulation>);
    for (const axis of ["roll", "pitch"] as const) {
      const { p, d } = pageMap.axes[axis].grid;
      expect(siGains(pageMap, simulator, axis, p[1] as number, d[1] as number)).toEqual([
        grid[axis].p[1],
        grid[axis].d[1],
      ]);
      const yielding = { pause: async () => {}, onProgress: () => {}, isCurrent: () => true };
      const levels = await Promise.all(
        simulator.levels.map((level) => levelMap(simulator, axis, level, map.limits, yielding)),
      );
      for (const i of d.keys())
        for (const j of p.keys()) {
          const sustained = levels.some((level) => level?.verdict[i]?.[j] === "sustained");
          const bySimulation = (map.axes[axis].decidedBy[i]?.[j] ?? -1) >= 0;
          if (bySimulation) expect(sustained).toBe(map.axes[axis].verdict[i]?.[j] === "sustained");
          for (const id of MEASURE_IDS) expect(levels[0]?.measures[id]).toHaveLength(d.length);
        }
    }
  });
});
