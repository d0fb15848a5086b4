// A plan of a few dozen short trials with noise, disturbed air, a boundary to bisect and a start to confirm.

import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { type Plan, planSweep } from "../../src/plan/plan.js";
import type { Script, Sweep } from "../../src/sweep/sweep.js";
import { FULL, nudge, planOf, stretchedX } from "../fixtures/airframe.js";
import { bothAxes } from "../fixtures/both-axes.js";

const rate = (share: number) => ({ kind: "share" as const, share });
const ratio = (vh: number) => ({ kind: "ratio" as const, ratio: vh });

/** A stop into the craft's own wake. */
const wash: Script = {
  ...nudge(5),
  name: "wash",
  kind: "wobble",
  duration: 1.8,
  window: { from: 0.3, to: 0.9 },
  tail: { from: 0.9, to: 1.8 },
  noise: true,
  command: [
    [0, rate(0)],
    [0.1, rate(0.5)],
    [0.3, rate(0.5)],
    [0.34, rate(0)],
  ],
  descent: [
    [0, ratio(0)],
    [0.3, ratio(1.25)],
    [0.8, ratio(1.25)],
    [0.9, ratio(0)],
  ],
};

/** A plan with prop wash; its air, made anew for each seed of a start, is half of what the plan costs. */
export const tinyPlan = (seed = 7): Plan => planWith(wash, seed);

/** The same in still air, for tests of what lies around the trials. */
export const stillPlan = (seed = 7, lines = LINES): Plan => planWith({ ...wash, descent: [] }, seed, lines);

/** In display units. */
const LINES = { p: [12, 24, 36, 48, 60], d: [1, 3, 5] };

function planWith(second: Script, seed: number, { p, d } = LINES): Plan {
  const { sweep } = planOf(stretchedX, nudge(5), [0.35], [FULL]);
  const [use] = sweep.scripts;
  const tiny: Sweep = {
    ...sweep,
    seed,
    grid: bothAxes({ p: p.map((gain) => gain * P_UNIT), d: d.map((gain) => gain * D_UNIT) }),
    scripts: [use, { ...use, script: second }],
    boundaryTolerance: 0.02,
  };
  const plan = planSweep(stretchedX, tiny);
  if ("variants" in plan) return plan;
  throw new Error(plan.map(({ message }) => message).join("; "));
}
