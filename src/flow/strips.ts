// The strips a sweep asks for, simulated at the starting tunes once these are known, by whoever reduces the trials.
import type { AxisReduction } from "../map/axis.js";
import type { StabilityMap } from "../map/format.js";
import type { Strip, Strips } from "../map/strip-format.js";
import type { Ask } from "../map/trials.js";
import type { Plan, TrialPlan } from "../plan/plan.js";
import { integralPlan, integralStrip } from "../strips/integral.js";
import { yawPlan, yawStrip } from "../strips/yaw.js";
import type { Axis, RequestedStrip } from "../sweep/sweep.js";
import { askOf } from "./ask.js";
import { type RunnerChoice, runnerFor } from "./runner.js";

interface StripOptions extends Pick<RunnerChoice, "cache"> {
  readonly signal?: AbortSignal;
}

type Reduced = Readonly<Record<Axis, AxisReduction>>;

/** The map with its strips; unchanged where the sweep asks for none. Throws RunIncomplete when interrupted. */
export async function withStrips(
  plan: Plan,
  map: StabilityMap,
  axes: Reduced,
  options: StripOptions,
): Promise<StabilityMap> {
  const { strips: asked } = plan.sweep;
  if (asked === undefined) return map;
  const yaw = asked.yaw === undefined ? {} : { yaw: await simulatedYaw(plan, axes, asked.yaw, options) };
  const i = asked.i === undefined ? {} : { i: await simulatedIntegral(plan, axes, asked.i, options) };
  const strips: Strips = { ...yaw, ...i };
  return { ...map, strips };
}

function simulatedYaw(plan: Plan, axes: Reduced, asked: RequestedStrip, options: StripOptions) {
  const trials = yawPlan(plan, axes, asked);
  return simulating(trials, options, (ask) => yawStrip(plan, axes, asked, trials, ask));
}

async function simulatedIntegral(plan: Plan, axes: Reduced, asked: RequestedStrip, options: StripOptions) {
  const strips: Partial<Record<Axis, Strip>> = {};
  for (const axis of ["roll", "pitch"] as const) {
    const { start } = axes[axis];
    if (start === null) continue;
    const trials = integralPlan(plan, axis, asked);
    strips[axis] = await simulating(trials, options, (ask) =>
      integralStrip(plan, axis, axes[axis], start, asked, trials, ask),
    );
  }
  return strips;
}

/** In this thread: some hundred trials cost less than a pool of workers to start. */
async function simulating<T>(
  plan: TrialPlan,
  { cache, signal }: StripOptions,
  use: (ask: Ask) => Promise<T>,
): Promise<T> {
  const runner = runnerFor(plan, { workers: 0, cache }, 1);
  try {
    return await use(askOf((tasks) => runner.run(tasks, signal === undefined ? {} : { signal })));
  } finally {
    await runner.close();
  }
}
