// How much work tasks are, before any is done: what a time limit and an estimate are made of.
import { substepsOf } from "../airframe/airframe.js";
import type { Plan } from "../plan/plan.js";
import type { Task } from "./task.js";

/** Control periods of one trial of each variant, by its index. */
export const stepsOf = ({ variants, airframe }: Plan): number[] =>
  variants.map(({ script }) => Math.round(script.duration * airframe.controller.rate));

/** A function that gives the work of a task: physics steps of one rotor, over all its trials. */
export function taskWork(plan: Plan): (task: Task) => number {
  const { airframe } = plan;
  const steps = stepsOf(plan);
  return ({ variant, p }) => p.length * (steps[variant] ?? 0) * substepsOf(airframe) * airframe.rotors.length;
}
