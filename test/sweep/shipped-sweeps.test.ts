import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { readDocument } from "../../src/files/read.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe } from "../../src/flow/read.js";
import { parseSweep, pathFromSweep } from "../../src/sweep/resolve.js";
import { parseScript } from "../../src/sweep/script.js";

const FILE = "sweeps/first-tune.yaml";
const sweep = parseSweep(readDocument(FILE), readDocument);
const SCRIPTS = readdirSync("sweeps/scripts").sort();

describe("the first tune", () => {
  test("leaves its lines to the plan: on a 5-inch craft from loose to far too hot, the line without D included", () => {
    expect(sweep.grid.roll).toEqual({ auto: { p: 24, d: 24 } });
    const model = readAirframe(pathFromSweep(FILE, sweep.model ?? ""));
    const { grid } = planFor(model, { value: sweep, document: readDocument(FILE) }).sweep;
    // P 10 to 60 % per 100 deg/s is where a 5-inch craft lives: common practice, no source.
    for (const { p, d } of [grid.roll, grid.pitch]) {
      expect([p.length, d.length]).toEqual([24, 24]);
      expect((p[0] ?? 0) / P_UNIT).toBeLessThan(10);
      expect((p.at(-1) ?? 0) / P_UNIT).toBeGreaterThan(60);
      expect(d[0]).toBe(0);
      expect((d.at(-1) ?? 0) / D_UNIT).toBeGreaterThan(4);
    }
  });

  test("uses every shipped script, three throttle levels where it varies, fresh and tired pack", () => {
    const { yaw, i } = sweep.strips ?? {};
    const uses = [...sweep.scripts, ...(yaw?.scripts ?? []), ...(i?.scripts ?? [])];
    expect([...new Set(uses.map((use) => `${use.script.name}.yaml`))].sort()).toEqual(SCRIPTS);
    for (const use of sweep.scripts) expect([use.script.name, use.throttle.length]).toEqual([use.script.name, 3]);
    expect(sweep.conditions.map((condition) => condition.charge)).toEqual([1, 0.25]);
  });

  test("names a model that is there", () => {
    expect(parseAirframe(readDocument(pathFromSweep(FILE, sweep.model ?? ""))).name).toBe("Sandpiper");
  });

  test("leaves nothing to be assumed", () => {
    expect(sweep.defaulted).toEqual([]);
  });
});

describe("the thorough first tune", () => {
  test("asks the same of more draws on finer lines", () => {
    const thorough = parseSweep(readDocument("sweeps/first-tune-thorough.yaml"), readDocument);
    const own = { name: "first-tune-thorough", title: thorough.title, grid: thorough.grid };
    expect(thorough).toEqual({ ...sweep, ...own, uncertainty: { draws: 128, confidence: 0.95, loopGain: 0.1 } });
    expect(thorough.grid.roll).toEqual({ auto: { p: 32, d: 32 } });
    expect(sweep.uncertainty).toEqual({ draws: 32, confidence: 0.95, loopGain: 0.1 });
  });
});

describe("the shipped scripts", () => {
  test("are the eight of the trade, the nudge, and two for yaw and I", () => {
    expect(SCRIPTS).toEqual([
      "drop-and-catch.yaml",
      "flip-stop.yaml",
      "gust.yaml",
      "hover-noise.yaml",
      "lasting-gust.yaml",
      "nudge.yaml",
      "punch-out.yaml",
      "roll-stop.yaml",
      "throttle-blip.yaml",
      "wash-turn.yaml",
      "yaw-stop.yaml",
    ]);
  });

  test.each(SCRIPTS)("%s is named as its file, 1.6 to 2.6 s long, and ends level", (file) => {
    const script = parseScript(readDocument(`sweeps/scripts/${file}`));
    expect(`${script.name}.yaml`).toBe(file);
    expect(script.duration).toBeGreaterThanOrEqual(1.6);
    expect(script.duration).toBeLessThanOrEqual(2.6);
    expect(script.throttle.at(-1)?.[1]).toEqual({ kind: "level", plus: 0 });
  });
});
