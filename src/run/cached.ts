// A runner with a cache: what a store holds is not run again, and what is run is stored at once, so that a run killed
// at any moment can be resumed.
import { at } from "../base/at.js";
import { RunIncomplete } from "./incomplete.js";
import type { Runner } from "./runner.js";
import type { Task, TaskResult } from "./task.js";

/** Where finished tasks are stored. Neither call may throw: a store that fails costs time, never a run. */
export interface TrialStore {
  get(task: Task): TaskResult | null;
  put(task: Task, result: TaskResult): void;
  /** False where what is run is lost with the process. */
  readonly persistent: boolean;
}

/** `open` makes the runner that computes; it is called when the first task has to be run, which may be never. */
export function cachedRunner(open: () => Runner, store: TrialStore): Runner {
  let opened: Runner | null = null;
  return {
    async run(tasks, options = {}) {
      const results: (TaskResult | null)[] = [];
      for (const task of tasks) {
        // Lets an abort signal arrive between two files.
        await new Promise<void>((resolve) => setImmediate(resolve));
        if (options.signal?.aborted)
          throw new RunIncomplete("interrupted", tasks.slice(results.length), store.persistent);
        const cached = store.get(task);
        results.push(cached);
        if (cached !== null) options.onTrials?.(cached.outcome.length, "cached");
      }
      const remaining = tasks.filter((_, place) => results[place] === null);
      if (remaining.length === 0) return results as TaskResult[];
      opened ??= open();
      const onResult = (task: Task, result: TaskResult) => {
        store.put(task, result);
        options.onResult?.(task, result);
      };
      const fresh = await opened.run(remaining, { ...options, onResult }).catch((error: unknown) => {
        if (!(error instanceof RunIncomplete)) throw error;
        throw new RunIncomplete(error.reason, error.missing, store.persistent);
      });
      let next = 0;
      return results.map((cached) => cached ?? at(fresh, next++));
    },
    async close() {
      await opened?.close();
    },
  };
}
