// Plans of models that will be compared: one grid, chosen for the first of them, and the longest tails any of them needs.
import type { Airframe } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import { InputError } from "../base/problem.js";
import { planOf } from "../compare/question.js";
import type { StabilityMap } from "../map/format.js";
import type { Plan, SharedPlan } from "../plan/plan.js";
import type { StoredPlan } from "../plan/stored-shape.js";
import { requestedVariants } from "../plan/variants.js";
import type { RequestedSweep, Sweep } from "../sweep/sweep.js";
import { planFor } from "./plan.js";
import type { WithDocument } from "./read.js";

type Model = WithDocument<Airframe>;

/** s, per variant: the instant at which its tail ends. */
export type TailEnds = readonly number[];

/** The base first. InputError with the problems of the first model that cannot be planned. */
export function comparablePlans(
  [base, ...others]: readonly [Model, ...Model[]],
  sweep: WithDocument<RequestedSweep>,
): Plan[] {
  const first = planFor(base, sweep);
  const { grid } = first.sweep;
  const plans = others.map((model) => planFor(model, sweep, { grid }));
  const ends = longestEnds([first, ...plans].map(tailEnds));
  return [
    withTails(base, sweep, first, ends),
    ...plans.map((plan, k) => withTails(at(others, k), sweep, plan, ends, grid)),
  ];
}

/** The base's plan with tails for candidates that are slower. One that cannot be read or planned is left to the gate. */
export function baselinePlan(
  base: Model,
  sweep: WithDocument<RequestedSweep>,
  candidates: readonly (() => Model)[],
): Plan {
  const plan = planFor(base, sweep);
  const { grid } = plan.sweep;
  const ends = candidates.flatMap((read) => {
    try {
      return [tailEnds(planFor(read(), sweep, { grid }))];
    } catch (error) {
      if (error instanceof InputError) return [];
      throw error;
    }
  });
  return withTails(base, sweep, plan, longestEnds([tailEnds(plan), ...ends]));
}

/** What a candidate shares with a base that has been simulated. */
export function sharedWith(base: StabilityMap): Required<SharedPlan> {
  const { sweep, variants } = planOf(base) as unknown as StoredPlan & { readonly sweep: Sweep };
  const ends = requestedVariants(sweep).map(({ script }, k) => variants[k]?.tail?.to ?? script.tail.to);
  return { grid: sweep.grid, tailEnds: ends };
}

const tailEnds = ({ variants }: Plan): TailEnds => variants.map(({ script }) => script.tail.to);

const longestEnds = (all: readonly TailEnds[]): TailEnds =>
  at(all, 0).map((_, variant) => Math.max(...all.map((ends) => at(ends, variant))));

/** Whether the plan's tails last beyond these. */
export const lastsLonger = (plan: Plan, ends: TailEnds): boolean =>
  tailEnds(plan).some((end, variant) => end > at(ends, variant));

function withTails(
  model: Model,
  sweep: WithDocument<RequestedSweep>,
  plan: Plan,
  ends: TailEnds,
  grid?: Sweep["grid"],
): Plan {
  const own = tailEnds(plan);
  if (ends.every((end, variant) => end <= at(own, variant))) return plan;
  return planFor(model, sweep, { ...(grid === undefined ? {} : { grid }), tailEnds: ends });
}
