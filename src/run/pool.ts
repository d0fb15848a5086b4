// The pooled runner on tinypool. Every wait has an end: a worker that exits or hangs leaves its task and a later
// destroy() unsettled, so each ends with the pool's error, a time limit or the caller's signal too.

import { fileURLToPath } from "node:url";
import type { Tinypool } from "tinypool";
import { at } from "../base/at.js";
import type { TrialPlan } from "../plan/plan.js";
import { bundlesOf } from "./bundles.js";
import { type Ending, ending } from "./ending.js";
import { type Clock, taskGuard } from "./guard.js";
import { RunIncomplete } from "./incomplete.js";
import type { WorkerData, WorkerReply, WorkerRequest } from "./message.js";
import { planMemory } from "./plan-memory.js";
import type { Runner } from "./runner.js";
import { slotsFor } from "./slots.js";
import type { Task, TaskResult } from "./task.js";
import { NoThreads, threadsFor } from "./threads.js";

export interface PoolOptions {
  readonly workers: number;
  /** ms of running that what travels in one message is granted before its worker counts as lost; more work is granted more. */
  readonly taskTimeLimit?: number;
  /** The work of a task, as taskWork counts it; absent: every task is granted the same. */
  readonly workOf?: (task: Task) => number;
  readonly clock?: Clock;
  /** MiB of objects a worker may hold before it counts as lost; what trials work in lies outside of it. */
  readonly heapLimit?: number;
  /** Path of the worker module, for tests that inject faults. */
  readonly workerFile?: string;
}

const TASK_TIME_LIMIT = 120_000;
const NO_THREADS = "allow more of them, as with ulimit -u or the limit of the container";
const HEAP_LIMIT = 512;
const CLOSE_TIME_LIMIT = 2_000;
/**
 * Messages queued per worker, over all runs: enough that no worker idles while its result is on its way, and no more, since
 * the time limit counts from there.
 */
const MESSAGES_IN_FLIGHT = 2;

export function pooledRunner(plan: TrialPlan, options: PoolOptions): Runner {
  const { taskTimeLimit = TASK_TIME_LIMIT, heapLimit = HEAP_LIMIT, workOf = () => 0 } = options;
  const guard = taskGuard(taskTimeLimit, options.clock);
  const failure = ending();
  const watched = (pool: Tinypool): void => {
    pool.on("error", (error: unknown) =>
      failure.end(`a worker was lost: ${error instanceof Error ? error.message : String(error)}`),
    );
    for (const thread of pool.threads) {
      // Comes before the exit, and knows why: out of memory.
      thread.on("error", (error: Error) => failure.end(`a worker was lost: ${error.message}`));
      thread.on("exit", (code: number) => failure.end(`a worker exited with code ${code}`));
    }
  };
  const threads = {
    filename: options.workerFile ?? fileURLToPath(new URL("./worker.js", import.meta.url)),
    isolateWorkers: false,
    resourceLimits: { maxOldGenerationSizeMb: heapLimit },
    workerData: { plan, memory: planMemory(plan) } satisfies WorkerData,
  };
  const opened = threadsFor(options.workers, threads, watched).then(({ pool, workers }) => ({
    pool,
    workers,
    slots: slotsFor(workers * MESSAGES_IN_FLIGHT),
  }));
  opened.catch(() => {}); // reported by run()
  return {
    async run(tasks, { onTrials, onResult, signal } = {}) {
      const { pool, workers, slots } = await opened.catch((error: unknown) => {
        throw error instanceof NoThreads ? new RunIncomplete(`${error.message}: ${NO_THREADS}`, tasks) : error;
      });
      const results = new Array<TaskResult | undefined>(tasks.length).fill(undefined);
      const interrupted = interruption(signal);
      const bundles = bundlesOf(tasks, workers);
      let next = 0;
      let stopped: string | null = null;
      const take = (place: number, reply: WorkerReply): void => {
        if (!reply.ok) {
          stopped ??= reply.message;
          throw new Error(`${reply.message}\n${reply.stack}`);
        }
        const task = at(tasks, place);
        results[place] = reply.result;
        onResult?.(task, reply.result);
        onTrials?.(task.p.length, "simulated");
      };
      const lane = async (): Promise<void> => {
        while (stopped === null && next < bundles.length) {
          const places = at(bundles, next++);
          const bundle = places.map((place) => at(tasks, place));
          const leave = await slots.enter();
          if (stopped !== null) {
            leave();
            return;
          }
          const { overdue, end } = guard(bundle.reduce((sum, task) => sum + workOf(task), 0));
          // A hanging worker is lost to every run, so none waits for its own limit.
          void overdue.then((limit) => failure.end(`a task took longer than ${Math.round(limit / 100) / 10} s`));
          const replies = await interrupted.before(failure.before(attempt(pool, bundle)));
          end(typeof replies !== "string");
          leave();
          if (typeof replies === "string") stopped ??= replies;
          else for (const [k, place] of places.entries()) take(place, at(replies, k));
        }
      };
      try {
        await Promise.all(Array.from({ length: workers * MESSAGES_IN_FLIGHT }, lane));
      } finally {
        interrupted.cancel();
      }
      const missing = tasks.filter((_, index) => results[index] === undefined);
      if (stopped !== null || missing.length > 0) throw new RunIncomplete(stopped ?? "tasks were lost", missing);
      return results as TaskResult[];
    },
    async close() {
      failure.end("the runner was closed");
      // tinypool 2.2 waits for exits with events.once on objects that lack this method: an error of a worker that is
      // just closing would be thrown at nobody and end the process.
      const pool = await opened.then(
        ({ pool }) => pool,
        () => null,
      );
      if (pool === null) return;
      for (const thread of pool.threads) Object.assign(thread, { removeListener: () => thread });
      const limit = after(CLOSE_TIME_LIMIT, "");
      await Promise.race([pool.destroy().catch(() => {}), limit.reason]);
      limit.cancel();
    },
  };
}

const attempt = async (pool: Tinypool, bundle: WorkerRequest): Promise<readonly WorkerReply[] | string> => {
  try {
    return (await pool.run(bundle)) as readonly WorkerReply[];
  } catch (error) {
    return `a worker was lost: ${error instanceof Error ? error.message : String(error)}`;
  }
};

/** A reason that arrives after a time, and can be called off. */
function after(milliseconds: number, reason: string): { reason: Promise<string>; cancel: () => void } {
  let timer: NodeJS.Timeout | undefined;
  const arrives = new Promise<string>((resolve) => {
    timer = setTimeout(resolve, milliseconds, reason);
  });
  return { reason: arrives, cancel: () => clearTimeout(timer) };
}

/** Ends when the signal aborts, unless it is called off before. */
function interruption(signal: AbortSignal | undefined): Pick<Ending, "before"> & { readonly cancel: () => void } {
  const { end, before } = ending();
  const listener = () => end("interrupted");
  if (signal?.aborted) listener();
  else signal?.addEventListener("abort", listener, { once: true });
  return { before, cancel: () => signal?.removeEventListener("abort", listener) };
}
