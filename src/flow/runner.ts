// The runner of a plan's trials: this thread or a pool, with or without the cache.
import type { TrialPlan } from "../plan/plan.js";
import { cachedRunner } from "../run/cached.js";
import { RunIncomplete } from "../run/incomplete.js";
import { pooledRunner } from "../run/pool.js";
import { type Runner, serialRunner } from "../run/runner.js";
import { taskWork } from "../run/work.js";
import type { TrialCache } from "./cache.js";
import { missingLines } from "./missing.js";

export interface RunnerChoice {
  /** Worker threads; 0 runs everything in this thread. */
  readonly workers: number;
  /** Where finished trials are stored and looked up; absent: nowhere. */
  readonly cache?: TrialCache | undefined;
}

/** `tasks`: how many there are at once; more workers than that are useless. A run that cannot finish says which trials are missing. */
export function runnerFor(plan: TrialPlan, { workers, cache }: RunnerChoice, tasks: number): Runner {
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
