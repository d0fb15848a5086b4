// Maps on lines that theory chose: enough of their points in or beside safe ground, and the same answers as even lines give.
import { beforeAll, describe, expect, it } from "vitest";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { simulate } from "../../src/flow/simulate.js";
import type { StabilityMap } from "../../src/map/format.js";
import { besideShare } from "../../src/plan/auto-grid.js";
import type { RequestedSweep } from "../../src/sweep/sweep.js";
import { bothAxes } from "../fixtures/both-axes.js";
import { NIGHT } from "../hostile/cases.js";

const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
const AXES = ["roll", "pitch"] as const;

/** A whole sweep each, so by day one of them. */
const CRAFT = NIGHT ? ["sandpiper-r1", "curlew-r1", "dunlin-r1", "turnstone-r1"] : ["sandpiper-r1"];

describe.each(CRAFT)("the shipped first tune of %s", (name) => {
  let map = {} as StabilityMap;
  beforeAll(async () => {
    const plan = planFor(readAirframe(`models/${name}.yaml`), readSweep("sweeps/first-tune.yaml"));
    map = (await simulate(plan, { workers: 0, provenance })).map;
  });

  it.each(AXES)("%s: a sixth of the points lie in or beside ground that is safe in every trial", (axis) => {
    expect(besideShare(map.axes[axis].safe)).toBeGreaterThan(1 / 6);
  });

  it.each(AXES)("%s: the sustained boundary lies inside the map at every D, and its fold with it", (axis) => {
    const { sustained } = map.axes[axis].boundary;
    expect(sustained.filter(({ reason }) => reason === "never")).toEqual([]);
    expect(sustained.at(-1)?.reason).toBe("always");
    // Lines for a craft with spreads reach on to where the fold of nearly all draws lies.
    const fold = sustained.findIndex(({ reason }) => reason === "always");
    expect(fold).toBeGreaterThan(0.75 * sustained.length);
    expect(sustained[fold - 1]?.p).toBeGreaterThan(0);
  });

  it("takes no more trials than 32 even lines of each gain did", () => {
    expect(map.provenance.trials).toBeLessThan(100_208); // Sandpiper r1, 2026-11-28, before lines were chosen
  });
});

describe("lines chosen by theory and even lines", () => {
  const quick = readSweep("test/fixtures/quick.yaml");
  const model = readAirframe("models/sandpiper-r1.yaml");
  const pinned = { p: 9 * P_UNIT, d: 1.2 * D_UNIT };
  const even = (from: number, to: number, count: number, unit: number) =>
    Array.from({ length: count }, (_, k) => (from + ((to - from) * k) / (count - 1)) * unit);
  const mapOf = async (grid: RequestedSweep["grid"]): Promise<StabilityMap> => {
    const value = { ...quick.value, grid, pinned: { roll: pinned, pitch: pinned }, boundaryTolerance: 0.005 };
    return (await simulate(planFor(model, { ...quick, value }), { workers: 0, provenance })).map;
  };

  let chosen = {} as StabilityMap;
  let evenly = {} as StabilityMap;
  beforeAll(async () => {
    chosen = await mapOf({ roll: { auto: { p: 24, d: 20 } }, pitch: { auto: { p: 24, d: 20 } } });
    evenly = await mapOf(bothAxes({ p: even(2, 126, 63, P_UNIT), d: even(0, 7.5, 31, D_UNIT) }));
  });

  it("are not the same", () => {
    const steps = chosen.axes.roll.grid.p.slice(1).map((p, k) => p - (chosen.axes.roll.grid.p[k] as number));
    expect(Math.max(...steps)).toBeGreaterThan(5 * Math.min(...steps));
  });

  it.each(AXES)("%s: find the starting tune at the same place", (axis) => {
    const [one, other] = [chosen.axes[axis].start, evenly.axes[axis].start];
    expect(Math.abs((one?.p as number) / (other?.p as number) - 1)).toBeLessThan(0.06);
    expect(Math.abs((one?.d as number) / (other?.d as number) - 1)).toBeLessThan(0.06);
  });

  it.each(AXES)("%s: narrow the boundary down to the same P", (axis) => {
    const [one, other] = [chosen.axes[axis].pinned, evenly.axes[axis].pinned];
    expect(Math.abs((one?.boundary.p as number) / (other?.boundary.p as number) - 1)).toBeLessThan(0.005);
  });

  it.each(AXES)("%s: judge the same gains alike, number for number", (axis) => {
    const [one, other] = [chosen.axes[axis].pinned, evenly.axes[axis].pinned];
    expect(one?.measures).toEqual(other?.measures);
    expect(one?.margins).toEqual(other?.margins);
    expect(one?.verdict).toBe(other?.verdict);
  });
});
