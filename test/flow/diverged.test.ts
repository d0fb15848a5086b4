// Trials whose numbers leave the model: a verdict with the time it happened, and never a NaN on the way to a file.
import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { canonicalJson } from "../../src/base/canonical.js";
import { ABSENCES, MEASURE_IDS } from "../../src/base/measures.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { simulate } from "../../src/flow/simulate.js";
import { rigOf } from "../../src/kernel/rig.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import type { StabilityMap } from "../../src/map/format.js";
import { type Plan, planSweep } from "../../src/plan/plan.js";
import { renderCsv, renderPage, renderSummary } from "../../src/report/index.js";
import { tinyPlan } from "../run/tiny-plan.js";

const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
const plain = tinyPlan();

function planOf(craft: Partial<Airframe>): Plan {
  const plan = planSweep({ ...plain.airframe, ...craft }, { ...plain.sweep, everyTrial: true });
  if ("variants" in plan) return plan;
  throw new Error("cannot be simulated");
}

const mapOf = async (plan: Plan): Promise<StabilityMap> => (await simulate(plan, { workers: 0, provenance })).map;

/** A body more than ten thousand times too light, its yaw left alone: the step itself is unstable. */
const FEATHER = planOf({
  inertia: { xx: 1e-7, yy: 1e-7, zz: 2e-7, xy: 0, xz: 0, yz: 0 },
  controller: { ...plain.airframe.controller, yaw: { p: 0, i: 0, d: 0 } },
});
/** Light enough that only some gains run away. */
const LIGHT = planOf({ inertia: { xx: 6e-7, yy: 1.9e-3, zz: 2e-3, xy: 0, xz: 0, yz: 0 } });

describe("a trial that diverges", () => {
  it("is reported with the time at which its rate was no longer a finite number", async () => {
    const { axes } = await mapOf(FEATHER);
    const { grid } = axes.roll;
    const points = axes.roll.divergences ?? [];
    expect(points.length).toBe(grid.p.length * grid.d.length);
    for (const { p, d, after, script } of [points[0], points[7]]) {
      const at = FEATHER.variants
        .filter(({ axis, script: { name } }) => axis === "roll" && name === script)
        .map((variant) => {
          const rig = rigOf(FEATHER, variant);
          const scratch = scratchFor(rig);
          simulateTrial(rig, p * P_UNIT, d * D_UNIT, { from: 0, to: rig.steps }, scratch);
          return rig.period * scratch.trace.findIndex((rate) => !(Math.abs(rate) < 1e4));
        });
      expect(at[0]).toBeGreaterThan(0);
      expect(after).toBeCloseTo(at[0], 9);
    }
  });

  it("is sustained, shows no measure, and is never healed: no clean point, no starting tune", async () => {
    const { axes } = await mapOf(FEATHER);
    for (const axis of [axes.roll, axes.pitch]) {
      expect(new Set(axis.verdict.flat())).toEqual(new Set(["sustained"]));
      for (const id of MEASURE_IDS) {
        expect(axis.measures[id].flat().every((value) => value === null)).toBe(true);
        expect(axis.absent[id].flat().every((code) => ABSENCES[code] === "the trial diverged")).toBe(true);
      }
      expect([axis.safeShare, axis.start]).toEqual([0, null]);
    }
  });

  it("leaves no NaN and no infinity in any file", async () => {
    for (const plan of [FEATHER, LIGHT]) {
      const map = await mapOf(plan);
      const files = [canonicalJson(map), renderCsv(map), renderSummary(map), await renderPage(map)];
      for (const file of files) expect(file).not.toMatch(/\bNaN\b|Infinity|undefined/);
      expect(renderSummary(map)).toMatch(
        /points? the simulation left the range of its numbers, first at P .* after 0\.\d+ s\./,
      );
    }
  });

  it("may be one of many: the others keep their verdicts", async () => {
    const { axes } = await mapOf(LIGHT);
    const { grid } = axes.roll;
    const diverged = axes.roll.divergences ?? [];
    expect(diverged.length).toBeGreaterThan(0);
    expect(axes.pitch.verdict.flat()).toContain("clean");
    for (const { p, d } of diverged) {
      const [row, column] = [grid.d.indexOf(d), grid.p.indexOf(p)];
      expect(axes.roll.verdict[row][column]).toBe("sustained");
    }
  });
});

it("a map without such trials says nothing of them", async () => {
  const map = await mapOf(plain);
  expect(Object.keys(map.axes.roll)).not.toContain("diverged");
  expect(renderSummary(map)).not.toContain("range of its numbers");
});
