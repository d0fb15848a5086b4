// Who runs the trials of a plan: this thread or a pool, with or without a memory of what was flown before.
import type { Plan } from "../plan/plan.js";
import { cachedRunner } from "../run/cached.js";
import { pooledRunner } from "../run/pool.js";
import { RunIncomplete, type Runner, serialRunner } from "../run/runner.js";
import { taskWork } from "../run/work.js";
import type { TrialCache } from "./cache.js";
import { missingLines } from "./missing.js";

export interface RunnerChoice {
  /** Worker threads; 0 runs everything in this thread. */
  readonly workers: number;
  /** Where finished trials are kept and looked for; absent: nowhere. */
  readonly cache?: TrialCache | undefined;
}

/** `tasks`: how many there are at once, which more workers would not share. A run that cannot finish says which trials are missing. */
export function runnerFor(plan: Plan, { workers, cache }: RunnerChoice, tasks: number): Runner {
  const useful = Math.min(workers, Math.max(1, tasks));
  const open = () =>
    workers === 0 ? serialRunner(plan) : pooledRunner(plan, { workers: useful, workOf: taskWork(plan) });
  const runner = cache === undefined ? open() : cachedRunner(open, cache.of(plan));
  return {
    run: (tasks, options) =>
      runner.run(tasks, options).catch((error: unknown) => {
        if (!(error instanceof RunIncomplete)) throw error;
        const { reason, missing, resumable } = error;
        throw new RunIncomplete(reason, missing, resumable, missingLines(plan, missing));
      }),
    close: () => runner.close(),
  };
}
