// The worker thread: a shim over the task runner.
import { workerData } from "node:worker_threads";
import type { TrialPlan } from "../plan/plan.js";
import type { WorkerReply, WorkerRequest } from "./message.js";
import { taskRunner } from "./task-runner.js";

// tinypool hands its own data first, ours second.
const [, plan] = workerData as [unknown, TrialPlan];
const run = taskRunner(plan);

export default function work(task: WorkerRequest): WorkerReply {
  try {
    return { ok: true, result: run(task) };
  } catch (error) {
    const thrown = error instanceof Error ? error : new Error(String(error));
    return { ok: false, message: thrown.message, stack: thrown.stack ?? "" };
  }
}
