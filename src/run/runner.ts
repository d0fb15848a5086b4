// Runs tasks and returns their results in the order of the tasks, serially or on a pool: one interface, same bits.
import type { TrialPlan } from "../plan/plan.js";
import { RunIncomplete } from "./incomplete.js";
import { sharedSetups } from "./plan-memory.js";
import type { Task, TaskResult } from "./task.js";
import { taskRunner } from "./task-runner.js";

export interface RunOptions {
  /** Called after each finished task with the number of its trials, and whether they were simulated or came from the cache. */
  readonly onTrials?: (trials: number, source: "simulated" | "cached") => void;
  /** Called with each result as soon as it is there, before the run is over. */
  readonly onResult?: (task: Task, result: TaskResult) => void;
  readonly signal?: AbortSignal;
}

export interface Runner {
  run(tasks: readonly Task[], options?: RunOptions): Promise<TaskResult[]>;
  close(): Promise<void>;
}

/** Everything in this thread; yields to the event loop between tasks so that an abort signal arrives. */
export function serialRunner(plan: TrialPlan): Runner {
  const runTask = taskRunner(plan, sharedSetups(plan));
  return {
    async run(tasks, { onTrials, onResult, signal } = {}) {
      const results: TaskResult[] = [];
      for (const task of tasks) {
        await new Promise<void>((resolve) => setImmediate(resolve));
        if (signal?.aborted) throw new RunIncomplete("interrupted", tasks.slice(results.length));
        const result = runTask(task);
        results.push(result);
        onResult?.(task, result);
        onTrials?.(task.p.length, "simulated");
      }
      return results;
    },
    async close() {},
  };
}
