// The worker thread: a shim over the task runner.
import { workerData } from "node:worker_threads";
import type { WorkerData, WorkerReply, WorkerRequest } from "./message.js";
import { sharedSetups } from "./plan-memory.js";
import type { Task } from "./task.js";
import { taskRunner } from "./task-runner.js";

// tinypool hands its own data first, ours second.
const [, { plan, memory }] = workerData as [unknown, WorkerData];
const run = taskRunner(plan, sharedSetups(plan, memory));

export default function work(tasks: WorkerRequest): readonly WorkerReply[] {
  return tasks.map(reply);
}

function reply(task: Task): WorkerReply {
  try {
    return { ok: true, result: run(task) };
  } catch (error) {
    const thrown = error instanceof Error ? error : new Error(String(error));
    return { ok: false, message: thrown.message, stack: thrown.stack ?? "" };
  }
}
