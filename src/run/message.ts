// What passes between the pool and its workers. Errors travel as data: a thrown one would lose all but its message.
import type { TrialPlan } from "../plan/plan.js";
import type { PlanMemory } from "./plan-memory.js";
import type { Task, TaskResult } from "./task.js";

/** What a worker starts with. */
export interface WorkerData {
  readonly plan: TrialPlan;
  readonly memory: PlanMemory;
}

export type WorkerRequest = readonly Task[];

/** To each of the tasks. */
export type WorkerReply =
  | { readonly ok: true; readonly result: TaskResult }
  | { readonly ok: false; readonly message: string; readonly stack: string };
