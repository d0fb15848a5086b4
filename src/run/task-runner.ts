// Tasks on the kernels the package was built with.
import { loadVectorKernel } from "../kernel/load-vector.js";
import type { TrialPlan } from "../plan/plan.js";
import type { SharedSetups } from "./plan-memory.js";
import { type Task, type TaskResult, tasksOn } from "./task.js";

export const taskRunner = (plan: TrialPlan, shared?: SharedSetups): ((task: Task) => TaskResult) =>
  tasksOn(plan, loadVectorKernel, { shared });
