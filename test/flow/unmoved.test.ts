// An axis that nothing moves: refused where no script moves it, left to theory where some trials are at rest.

import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { readYaml } from "../../src/files/yaml.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import type { AxisMap, StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { levelMap } from "../../src/page/level-map.js";
import { levelTheoryDecider } from "../../src/page/level-theory.js";
import { pageMapOf } from "../../src/page/page-map.js";
import { simulatorOf } from "../../src/page/simulator.js";
import { pageData } from "../../src/page-data/data.js";
import { renderCsv, renderPage, renderSummary } from "../../src/report/index.js";
import { parseSweep } from "../../src/sweep/resolve.js";
import { changed } from "../fixtures/small-model.js";

const BLIP = readFileSync("sweeps/scripts/throttle-blip.yaml", "utf8");
const QUIET = changed(BLIP, ["noise: on", "noise: off"]);
const SANDPIPER = readAirframe("models/sandpiper-r1.yaml");

const sweepOf = (scripts: string, blip = QUIET) => {
  const text = `format: gainscape.sweep/1
name: blip
title: A throttle blip
grid:
  p: {from: 4 %/(100 deg/s), to: 64 %/(100 deg/s), points: 6}
  d: {from: 0 %/(1000 deg/s^2), to: 3 %/(1000 deg/s^2), points: 4}
scripts: [${scripts}]
conditions: [{name: fresh pack, charge: 100 %}]
boundary_tolerance: 2 %
`;
  const document = readYaml("s.yaml", text);
  const open = (path: string) => readYaml(path, path.includes("blip") ? blip : readFileSync(`sweeps/${path}`, "utf8"));
  return { document, value: parseSweep(document, open) };
};

const complaint = (...given: Parameters<typeof sweepOf>): string | null => {
  try {
    planFor(SANDPIPER, sweepOf(...given));
    return null;
  } catch (error) {
    if (error instanceof InputError) return error.problems.map(({ line, message }) => `${line}: ${message}`).join("\n");
    throw error;
  }
};

describe("a sweep that leaves an axis at rest", () => {
  it("is refused with script, axis and a way out: a quiet blip on a craft that is even about roll", () => {
    expect(complaint("{use: throttle-blip}")).toMatch(
      /^7: nothing moves roll in "throttle-blip": .*; trials at rest say nothing of any gain; add \{use: nudge\}$/,
    );
  });

  it("is none where noise, a command or the craft's own unevenness moves it", () => {
    expect(complaint("{use: throttle-blip}", BLIP)).toBe(null);
    expect(complaint("{use: throttle-blip}, {use: nudge}")).toBe(null);
    const payload = { mass: 0.05, at: [0, 0.03, 0] as const };
    const sweep = sweepOf("{use: throttle-blip}");
    const [fresh] = sweep.value.conditions;
    const leaning = { ...sweep.value, conditions: [{ ...fresh, payload }] };
    expect(planFor(SANDPIPER, { ...sweep, value: leaning }).variants.length).toBe(2);
  });

  it("is one as well where the noise is switched on and the sensor has none", () => {
    const { value } = SANDPIPER;
    const silent = { ...value, sensing: { ...value.sensing, noiseDensity: 0, vibration: [] } };
    expect(() => planFor({ ...SANDPIPER, value: silent }, sweepOf("{use: throttle-blip}", BLIP))).toThrow(InputError);
  });
});

describe("trials at rest with a nudge at another throttle", () => {
  let map: StabilityMap;
  let roll: AxisMap;
  beforeAll(async () => {
    const plan = planFor(SANDPIPER, sweepOf("{use: nudge}, {use: throttle-blip, throttle: [70 %]}"));
    const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
    map = (await simulate(plan, { workers: 0, provenance })).map;
    roll = map.axes.roll;
  });

  it("say nothing: their level is theory's, to the digit, and theory is named", () => {
    const [, blip] = roll.boundary.byVariant;
    expect(blip?.atRest).toBe(true);
    expect(roll.boundary.byVariant[0]?.atRest).toBe(undefined);
    const hot = roll.boundary.theory?.loops.find(({ throttle }) => throttle === 70);
    const low = roll.boundary.sustained[0];
    expect(low).toMatchObject({ script: "theory", throttle: 70, condition: "fresh pack" });
    expect(low?.p).toBe(hot?.perD[0]?.[0]?.[1]);
  });

  it("are clean nowhere that theory calls unstable", () => {
    const { loops } = roll.boundary.theory ?? { loops: [] };
    for (const [i, row] of roll.verdict.entries())
      for (const [j, verdict] of row.entries()) {
        const p = map.axes.roll.grid.p[j] as number;
        const hot = loops[1]?.perD[i] ?? [];
        if (!hot.some(([from, to]) => p >= (from ?? 0) && p <= (to ?? 99))) expect(verdict).toBe("sustained");
      }
    expect(roll.decidedBy.flat().some((code) => code < -1)).toBe(true);
  });

  it("are reported in text, table and page, and the map reads back", async () => {
    expect(renderSummary(map)).toMatch(/Roll[\s\S]*does not die out \(theory at 70.% throttle, fresh pack\)/);
    expect(renderCsv(map)).toMatch(/sustained,sustained,theory,70,0,fresh pack,no/);
    expect(await renderPage(map)).toMatch(/At 4 of 4 D trials see no oscillation where theory has one/);
    const text = JSON.stringify(map);
    expect(parseMap(readYaml("map.json", text))).toEqual(JSON.parse(text));
  });

  it("are theory's in the page's map of their level as well: all levels together give the map", async () => {
    const pageMap = pageMapOf(JSON.parse(JSON.stringify(pageData(map))));
    const simulator = simulatorOf(pageMap.simulation as NonNullable<typeof pageMap.simulation>);
    const patience = { pause: async () => {}, onProgress: () => {}, isCurrent: () => true };
    for (const axis of ["roll", "pitch"] as const) {
      const levels = await Promise.all(
        simulator.levels.map((level) =>
          levelMap(simulator, axis, level, map.limits, patience, levelTheoryDecider(pageMap, axis, level)),
        ),
      );
      const together = pageMap.axes.roll.grid.d.map((_, i) =>
        pageMap.axes.roll.grid.p.map((__, j) => levels.some((level) => level?.verdict[i]?.[j] === "sustained")),
      );
      const sustained = map.axes[axis].verdict
        .slice(0, pageMap.axes.roll.grid.d.length)
        .map((row) => row.slice(0, pageMap.axes.roll.grid.p.length).map((verdict) => verdict === "sustained"));
      expect(together).toEqual(sustained);
    }
  });
});
