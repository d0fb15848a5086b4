// A store of trials in memory and a runner that counts what it had to run, for tests of what is remembered.

import { MEASURE_IDS } from "../../src/base/measures.js";
import type { TrialStore } from "../../src/run/cached.js";
import type { Runner } from "../../src/run/runner.js";
import type { Task, TaskResult } from "../../src/run/task.js";

export const nameOf = ({ variant, p, d }: Task): string => JSON.stringify([variant, [...p], [...d]]);

export function memoryStore(): TrialStore & { readonly stored: Map<string, TaskResult> } {
  const stored = new Map<string, TaskResult>();
  return {
    stored,
    persistent: true,
    get: (task) => stored.get(nameOf(task)) ?? null,
    put: (task, result) => void stored.set(nameOf(task), result),
  };
}

/** A result that identifies its task: the first value of each trial is its P. */
export function resultOf({ p }: Task): TaskResult {
  const width = MEASURE_IDS.length;
  const values = new Float64Array(p.length * width);
  p.forEach((gain, at) => {
    values[at * width] = gain;
  });
  return {
    values,
    absent: new Uint8Array(values.length),
    outcome: new Uint8Array(p.length),
    until: new Float64Array(p.length),
    steps: p.length,
  };
}

/** Runs nothing, answers with resultOf, records its tasks; `fault` ends the run at a task. */
export function countingRunner(
  fault?: (task: Task) => Error | null,
): Runner & { readonly requested: Task[]; closed: number } {
  const runner = {
    requested: [] as Task[],
    closed: 0,
    async run(tasks, { onTrials, onResult } = {}) {
      return tasks.map((task) => {
        const error = fault?.(task) ?? null;
        if (error !== null) throw error;
        runner.requested.push(task);
        const result = resultOf(task);
        onResult?.(task, result);
        onTrials?.(task.p.length, "simulated");
        return result;
      });
    },
    async close() {
      runner.closed++;
    },
  } satisfies Runner & { requested: Task[]; closed: number };
  return runner;
}
