// Threads for a pool: as many as asked for, or as many as the system grants.
import { setFlagsFromString } from "node:v8";
import type { Worker } from "node:worker_threads";
import { Tinypool } from "tinypool";

export type ThreadOptions = Omit<NonNullable<ConstructorParameters<typeof Tinypool>[0]>, "minThreads" | "maxThreads">;

/** Not a single thread could be started; `cause` is the system's own error. */
export class NoThreads extends Error {
  override readonly name = "NoThreads";
}

export interface Threads {
  readonly pool: Tinypool;
  readonly workers: number;
}

/**
 * A pool of `workers` threads, or of as many as the system grants, less one for other programs. `ready` is called
 * with each pool before anything can happen to its threads. Throws NoThreads.
 */
export async function threadsFor(
  workers: number,
  options: ThreadOptions,
  ready: (pool: Tinypool) => void,
): Promise<Threads> {
  // Node 20 aborts the whole process where a thread ends while its code is being optimised beside it: the platform has
  // forgotten the isolate by then. Threads optimise in line instead, at no cost seen (first-tune, 2026-11-28).
  setFlagsFromString("--no-concurrent-recompilation");
  const started: Worker[] = [];
  const note = (worker: Worker) => started.push(worker);
  process.on("worker", note);
  try {
    // Equal on purpose: with fewer at rest, a crash leaves queued tasks hanging.
    const pool = new Tinypool({ ...options, minThreads: workers, maxThreads: workers });
    ready(pool);
    return { pool, workers };
  } catch (error) {
    await new Promise<void>((resolve) => setImmediate(resolve)); // threads are announced one turn of the event loop later
    await Promise.all(started.map((worker) => worker.terminate()));
    const granted = Math.min(workers - 1, Math.max(1, started.length - 1));
    if (started.length === 0 || granted < 1) throw new NoThreads("no worker thread could be started", { cause: error });
    return threadsFor(granted, options, ready);
  } finally {
    process.off("worker", note);
  }
}
