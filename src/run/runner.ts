// Runs tasks and hands back their results in the order asked, serially or on a pool: one interface, same bits.
import type { Plan } from "../plan/plan.js";
import { type Task, type TaskResult, taskRunner } from "./task.js";

export interface RunOptions {
  /** Told after each finished task how many trials it held. */
  readonly onTrials?: (trials: number) => void;
  readonly signal?: AbortSignal;
}

export interface Runner {
  run(tasks: readonly Task[], options?: RunOptions): Promise<TaskResult[]>;
  close(): Promise<void>;
}

/** A run that ended before all tasks did: interrupted, a worker lost, or a task over its time. */
export class RunIncomplete extends Error {
  override readonly name = "RunIncomplete";
  constructor(
    readonly reason: string,
    readonly missing: readonly Task[],
  ) {
    super(reason);
  }
}

/** Everything in this thread; yields to the event loop between tasks so that a signal is heard. */
export function serialRunner(plan: Plan): Runner {
  const runTask = taskRunner(plan);
  return {
    async run(tasks, { onTrials, signal } = {}) {
      const results: TaskResult[] = [];
      for (const task of tasks) {
        await new Promise<void>((resolve) => setImmediate(resolve));
        if (signal?.aborted) throw new RunIncomplete("interrupted", tasks.slice(results.length));
        results.push(runTask(task));
        onTrials?.(task.p.length);
      }
      return results;
    },
    async close() {},
  };
}
