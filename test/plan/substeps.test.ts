// The physics steps that a plan chooses, against the loop stepped exactly over each period and against trials.
import { describe, expect, test } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { levelTrim, type Plan, planSweep } from "../../src/plan/plan.js";
import { NUDGE_DECAY } from "../../src/response/sustained.js";
import { OUTCOMES } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import type { Sweep } from "../../src/sweep/sweep.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { nearestEnd, stableEnds } from "../../src/theory/ends.js";
import { steppedPlant } from "../../src/theory/stepped.js";
import { FULL, nudge, planOf, stretchedX, TIRED } from "../fixtures/airframe.js";
import { bothAxes } from "../fixtures/both-axes.js";

const SHARE = 0.005; // of P
const AXES = ["roll", "pitch"] as const;
const LINE = [2, 64].map((p) => p * P_UNIT);

/** The test craft with a loop of this rate (Hz) and latency (s), its physics steps left open. */
function craftAt(rate: number, latency: number, substeps: number | null = null): Airframe {
  const { controller, sensing } = stretchedX;
  const below = (cutoff: number) => Math.min(cutoff, 0.4 * rate);
  return {
    ...stretchedX,
    sensing: { ...sensing, lowPass: [{ order: 2, cutoff: below(180) }] },
    controller: { ...controller, rate, latency, substeps, derivativeFilter: [{ order: 2, cutoff: below(100) }] },
  };
}

/** D from none to where the axis has lost most of its stable ground. */
const D = [0, 0.5, 1, 1.5, 2, 2.5, 3].map((d) => d * D_UNIT);

function planned(airframe: Airframe): Plan {
  const { sweep } = planOf(airframe, nudge(1), [0.5, 0.8], [FULL, TIRED]);
  const plan = planSweep(airframe, { ...sweep, grid: bothAxes({ p: LINE, d: D }) } as Sweep);
  if ("variants" in plan) return plan;
  throw new Error(plan.map(({ message }) => message).join());
}

/** By how much of P the steps move any end of stable ground, by theory on its own grid. */
function shift(plan: Plan): number {
  const holding = { ...plan.holding, yaw: plan.airframe.controller.yaw };
  const shifts = plan.variants.flatMap((variant) => {
    const { craft } = plan.conditions[variant.condition];
    const trim = levelTrim(plan, variant);
    const exact = axisPieces(craft, trim, variant.axis, holding);
    const stepped = axisPieces(craft, trim, variant.axis, holding, steppedPlant);
    const { i } = plan.airframe.controller[variant.axis];
    return D.flatMap((d) => {
      const ends = stableEnds(exact, { d, i }, LINE);
      return stableEnds(stepped, { d, i }, LINE).map((end) => {
        const match = nearestEnd(end, ends);
        return match === null ? 0 : Math.abs(end.p / match.p - 1);
      });
    });
  });
  expect(shifts.length).toBeGreaterThan(10);
  return Math.max(...shifts);
}

const CASES = [500, 1000, 2000, 4000, 8000].flatMap((rate) =>
  [0, 0.5e-3, 1e-3, 2e-3]
    .filter((latency) => Number.isInteger(latency * rate))
    .map((latency) => [rate, latency] as const),
);

describe.each(CASES)("%i Hz, latency %f s", (rate, latency) => {
  const plan = planned(craftAt(rate, latency));
  const { substeps } = plan.airframe.controller;

  test("the steps chosen move the boundary by less than 0.5 %, and fewer were not enough", () => {
    expect(shift(plan)).toBeLessThan(SHARE);
    if (substeps !== 1) expect(shift(planned(craftAt(rate, latency, 1)))).toBeGreaterThan(0.9 * SHARE);
  });

  test("the choice is in the plan's airframe, in its crafts, its digest and what was assumed", () => {
    for (const { craft } of plan.conditions) expect(craft.airframe).toBe(plan.airframe);
    expect(plan.airframe.defaulted.at(-1)).toContain(`controller.substeps: ${substeps}, chosen`);
    const other = planned(craftAt(rate, latency, (substeps ?? 0) + 1));
    expect(other.digests.plan).not.toBe(plan.digests.plan);
    expect(other.airframe.defaulted).toEqual([]);
  });
});

test("slow loops take several steps, fast ones one", () => {
  expect(planned(craftAt(500, 0)).airframe.controller.substeps).toBeGreaterThan(4);
  expect(planned(craftAt(8000, 0)).airframe.controller.substeps).toBe(1);
});

describe.each([
  [500, 2e-3],
  [1000, 0],
])("by trials of a nudge at %i Hz, latency %f s", (rate, latency) => {
  const plan = planned(craftAt(rate, latency));
  const run = taskRunner(plan);
  const sustained = (variant: number, p: number, d: number) =>
    run({ variant, p: Float64Array.of(p), d: Float64Array.of(d) }).outcome[0] === OUTCOMES.indexOf("sustained");

  test.each(AXES)("%s: the boundary is the exact loop's within 0.5 %", (axis) => {
    const holding = { ...plan.holding, yaw: plan.airframe.controller.yaw };
    let found = 0;
    for (const variant of plan.variants.filter((one) => one.axis === axis && one.condition === 0)) {
      const pieces = axisPieces(plan.conditions[0].craft, levelTrim(plan, variant), axis, holding);
      for (const d of [D[0], D[2]]) {
        const { i } = plan.airframe.controller[axis];
        for (const { p } of stableEnds(pieces, { d, i }, LINE, NUDGE_DECAY).filter((end) => end.upper)) {
          found++;
          expect(sustained(variant.index, p * (1 - SHARE), d)).toBe(false);
          expect(sustained(variant.index, p * (1 + SHARE), d)).toBe(true);
        }
      }
    }
    expect(found).toBeGreaterThan(1);
  });
});
