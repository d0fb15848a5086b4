// The two stages of a run, the grid and the search for boundaries, with their progress and what they cost.
import { at } from "../base/at.js";
import { RunIncomplete } from "../run/incomplete.js";
import type { Runner, RunOptions } from "../run/runner.js";
import type { Task, TaskResult } from "../run/task.js";

export interface Progress {
  readonly stage: "grid" | "boundaries" | "draws";
  readonly trials: number;
  /** Those of them that came from the cache. */
  readonly cached: number;
  /** Trials of the stage; null where the search decides as it goes. */
  readonly of: number | null;
}

/** What a run cost, to print and for benchmarks; never part of the map. */
export interface RunFigures extends Cost {
  /** What was simulated; the rest came from the cache. */
  readonly simulated: Cost;
  readonly gridTrials: number;
  readonly gridSeconds: number;
  /** From the end of the grid to the finished map: the rest of the search and the reduction. */
  readonly restSeconds: number;
}

interface Cost {
  readonly trials: number;
  readonly steps: number;
}

export interface TrackingOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
}

export interface TrackedRuns {
  /** `onResult` gets each result as it is there, and all once more at the end: those of the cache come only then. */
  grid(tasks: readonly Task[], onResult: (task: Task, result: TaskResult) => void): Promise<TaskResult[]>;
  /** Alongside the grid or after it. */
  search(tasks: readonly Task[]): Promise<TaskResult[]>;
  /** What other machines have simulated of the run, where it is shared out. */
  elsewhere(cost: Cost): void;
  /** Of both stages, up to now. */
  cost(): Cost;
  /** As of now, the end of the run. */
  figures(): RunFigures;
}

export function trackedRuns(runner: Runner, { signal, onProgress }: TrackingOptions): TrackedRuns {
  const started = performance.now();
  const all = noCost();
  const simulated = noCost();
  let gridTrials = 0;
  let gridEnd: number | null = null;
  let gridRun: Promise<unknown> = Promise.resolve();

  const run = async (tasks: readonly Task[], stage: Progress["stage"], onResult?: RunOptions["onResult"]) => {
    const done = { trials: 0, cached: 0 };
    const of = stage === "grid" ? trialsOf(tasks) : null;
    const results = await runner.run(tasks, {
      onTrials: (trials, source) => {
        done.trials += trials;
        if (source === "cached") done.cached += trials;
        // A search that runs alongside the grid is not reported: the grid says how far the run is.
        if (stage === "grid" || gridEnd !== null) onProgress?.({ stage, ...done, of });
      },
      onResult: (task, result) => {
        add(simulated, result);
        onResult?.(task, result);
      },
      ...(signal === undefined ? {} : { signal }),
    });
    for (const result of results) add(all, result);
    return results;
  };

  return {
    grid(tasks, onResult) {
      gridTrials = trialsOf(tasks);
      const results = run(tasks, "grid", onResult).then((results) => {
        gridEnd = performance.now();
        for (const [place, task] of tasks.entries()) onResult(task, at(results, place));
        return results;
      });
      gridRun = results;
      return results;
    },
    search: (tasks) =>
      run(tasks, "boundaries").catch(async (error: unknown) => {
        if (error instanceof RunIncomplete) await gridRun; // the grid ends early as well, and says what is missing
        throw error;
      }),
    elsewhere({ trials, steps }) {
      all.trials += trials;
      all.steps += steps;
    },
    cost: () => ({ ...all }),
    figures() {
      const end = gridEnd ?? started;
      const [gridSeconds, restSeconds] = [(end - started) / 1000, (performance.now() - end) / 1000];
      return { ...all, simulated, gridTrials, gridSeconds, restSeconds };
    },
  };
}

const noCost = () => ({ trials: 0, steps: 0 });

function add(cost: { trials: number; steps: number }, { outcome, steps }: TaskResult): void {
  cost.trials += outcome.length;
  cost.steps += steps;
}

const trialsOf = (tasks: readonly Task[]): number => tasks.reduce((sum, { p }) => sum + p.length, 0);
