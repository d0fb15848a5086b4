// How much work tasks are, before any is done: what a time limit, an estimate and the page are made of.
import { substepsOf } from "../airframe/airframe.js";
import { stepsOf } from "../kernel/schedule.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import type { Task } from "./task.js";

/** Control periods of one trial of each variant, by its index. */
export const stepsPerTrial = (plan: TrialPlan): number[] => plan.variants.map((variant) => stepsOf(plan, variant));

/** Physics steps of one trial, times its rotors. */
export const trialWork = (plan: Pick<TrialPlan, "airframe">, variant: Pick<TrialVariant, "script">): number =>
  stepsOf(plan, variant) * substepsOf(plan.airframe) * plan.airframe.rotors.length;

/** A function that gives the work of a task: physics steps of one rotor, over all its trials. */
export function taskWork(plan: TrialPlan): (task: Task) => number {
  const perTrial = plan.variants.map((variant) => trialWork(plan, variant));
  return ({ variant, p }) => p.length * (perTrial[variant] ?? 0);
}
