// A trial in segments: what a segment leaves out is zero in it.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SegmentKind } from "../../src/base/vector-layout.js";
import { planFor } from "../../src/flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../../src/flow/read.js";
import { disturbedSpan } from "../../src/kernel/drive.js";
import { advance } from "../../src/kernel/loop.js";
import * as m from "../../src/kernel/memory.js";
import { rigOf } from "../../src/kernel/rig.js";
import { countsOfKind, segmentsOf } from "../../src/kernel/segments.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import { rigs } from "./random-rig.js";

const cutsOf = (disturbed: { from: number; to: number }, window: { from: number; to: number }, accumulate: boolean) =>
  segmentsOf(100, disturbed, window, accumulate).map(({ from, to, kind }) => `${from}-${to} ${kind}`);

describe("cuts", () => {
  it("lie at the ends of the window and of the moving air", () => {
    const cuts = cutsOf({ from: 30, to: 60 }, { from: 40, to: 80 }, false);
    expect(cuts).toEqual(["0-30 still", "30-40 disturbed", "40-60 disturbed", "60-80 still", "80-100 still"]);
  });

  it("give a window that is accumulated one segment or more, whatever the air does", () => {
    const cuts = cutsOf({ from: 30, to: 60 }, { from: 40, to: 80 }, true);
    expect(cuts).toEqual(["0-30 still", "30-40 disturbed", "40-60 accumulated", "60-80 accumulated", "80-100 still"]);
  });

  it("fall together where there is nothing to tell apart", () => {
    expect(cutsOf({ from: 100, to: 100 }, { from: 0, to: 100 }, false)).toEqual(["0-100 still"]);
    expect(cutsOf({ from: 0, to: 100 }, { from: 0, to: 100 }, true)).toEqual(["0-100 accumulated"]);
  });
});

const sweep = readSweep("sweeps/first-tune.yaml");
const plan = planFor(readAirframe(modelOf(sweep)), sweep);

describe("the air", () => {
  it.each(
    plan.variants.filter(({ axis }) => axis === "roll").map((variant) => [variant.script.name, variant] as const),
  )("of %s moves within its span alone, and at both ends of it", (_, variant) => {
    const { drive, shape } = rigOf(plan, variant);
    const moves = (k: number) => {
      const now = k * drive.width;
      const shares = drive.values.subarray(now + m.THRUST_SHARE, now + m.THRUST_SHARE + shape.rotors);
      const inflow = [m.CLIMB, m.GUST_ROLL, m.GUST_PITCH].some((place) => drive.values[now + place] !== 0);
      return inflow || shares.some((share) => share !== 1);
    };
    const moving = Array.from({ length: drive.steps }, (__, k) => k).filter(moves);
    const { from, to } = drive.disturbed;
    if (moving.length === 0) expect(to).toBe(from);
    else expect([from, to]).toEqual([moving[0], (moving.at(-1) ?? 0) + 1]);
  });

  it("of a punch-out, a drop and a gust moves; that of a stop does not", () => {
    const length = (name: string) => {
      const variant = plan.variants.find(({ script }) => script.name === name) ?? plan.variants[0];
      const { from, to } = rigOf(plan, variant).drive.disturbed;
      return variant.script.name === name ? to - from : Number.NaN;
    };
    for (const name of ["punch-out", "drop-and-catch", "gust"]) expect(length(name)).toBeGreaterThan(100);
    expect(length("roll-stop")).toBe(0);
  });

  it("that begins or ends with the trial is found to its last control period", () => {
    const [{ shape }] = plan.variants.map((variant) => rigOf(plan, variant));
    const width = m.DRIVE_BASE + 4;
    const values = new Float64Array(3 * width);
    for (let k = 0; k < 3; k++) values.fill(1, k * width + m.THRUST_SHARE, (k + 1) * width);
    expect(disturbedSpan(values, shape, 3)).toEqual({ from: 3, to: 3 });
    values[2 * width + m.CLIMB] = 1;
    expect(disturbedSpan(values, shape, 3)).toEqual({ from: 2, to: 3 });
    values[width - 1] = 0.9; // the last rotor's share in the first control period
    expect(disturbedSpan(values, shape, 3)).toEqual({ from: 0, to: 3 });
  });
});

describe("what is left out", () => {
  it("changes no number: still air is air that does not move, and a accumulate only looks on", () => {
    fc.assert(
      fc.property(rigs, (rig) => {
        const { shape, craft, axis, steps } = rig;
        const values = rig.drive.values.slice();
        for (let k = 0; k < steps; k++) {
          const now = k * rig.drive.width;
          values.fill(0, now + m.CLIMB, now + m.THRUST_SHARE);
          values.fill(1, now + m.THRUST_SHARE, now + rig.drive.width);
        }
        const simulated = (kind: SegmentKind) => {
          const [state, trace] = [rig.start.slice(), new Float64Array(steps)];
          advance(craft, values, state, trace, ...m.countsOf(shape), axis, ...countsOfKind(kind), 0, steps);
          const accumulated = [m.HEAT, m.COMMAND_SUM, m.COMMAND_SQUARES];
          return [...trace, ...state.filter((_, place) => !accumulated.includes(place))].map((value) => value + 0);
        };
        expect(simulated("still")).toEqual(simulated("disturbed"));
        expect(simulated("accumulated")).toEqual(simulated("disturbed"));
      }),
      { seed: 5, numRuns: 40 },
    );
  });

  it("is only what is not wanted: limits are counted in any window, effort where it is wanted", () => {
    const [rig] = fc.sample(
      rigs.filter(({ steps }) => steps > 100),
      { seed: 6, numRuns: 1 },
    );
    const window = { from: 20, to: 90 };
    const scratch = scratchFor(rig);
    const bare = simulateTrial(rig, 0.3, 1e-3, window, scratch);
    const full = simulateTrial(rig, 0.3, 1e-3, { ...window, effort: true }, scratch);
    expect(bare).toEqual({ ...full, effort: null });
    expect(full.limited).toBeGreaterThan(0);
    expect(full.limited).toBeLessThanOrEqual(70);
    expect(full.effort?.heat).toBeGreaterThan(0);
    expect(full.fastest).toBe(Math.max(...scratch.trace.map((rate) => rate * rate)));
  });
});
