// A runner that remembers: what a store knows is not run again, what is run is stored at once, so that a run killed
// at any moment goes on from there.
import { RunIncomplete, type Runner } from "./runner.js";
import type { Task, TaskResult } from "./task.js";

/** Where finished tasks are kept. Neither call may throw: a store that fails costs time, never a run. */
export interface TrialStore {
  recall(task: Task): TaskResult | null;
  keep(task: Task, result: TaskResult): void;
  /** False where what is run is lost with the process. */
  readonly lasting: boolean;
}

/** `open` makes the runner behind; it is called when the first task has to be run, which may be never. */
export function cachedRunner(open: () => Runner, store: TrialStore): Runner {
  let opened: Runner | null = null;
  return {
    async run(tasks, options = {}) {
      const results: (TaskResult | null)[] = [];
      for (const task of tasks) {
        // A signal must be heard between two files.
        await new Promise<void>((resolve) => setImmediate(resolve));
        if (options.signal?.aborted) throw new RunIncomplete("interrupted", tasks.slice(results.length), store.lasting);
        const known = store.recall(task);
        results.push(known);
        if (known !== null) options.onTrials?.(known.outcome.length, "recalled");
      }
      const unknown = tasks.filter((_, at) => results[at] === null);
      if (unknown.length === 0) return results as TaskResult[];
      opened ??= open();
      const onResult = (task: Task, result: TaskResult) => {
        store.keep(task, result);
        options.onResult?.(task, result);
      };
      const fresh = await opened.run(unknown, { ...options, onResult }).catch((error: unknown) => {
        if (!(error instanceof RunIncomplete)) throw error;
        throw new RunIncomplete(error.reason, error.missing, store.lasting);
      });
      let next = 0;
      return results.map((known) => known ?? (fresh[next++] as TaskResult));
    },
    async close() {
      await opened?.close();
    },
  };
}
