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
  /** Trials of the stage, fewer as some are left out; null where the search decides as it goes. */
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

/** What simulates parts of the grid. */
export interface GridPart {
  /** `onResult` gets each result as it is there, and all once more at the end: those of the cache come only then. */
  run(tasks: readonly Task[], onResult: (task: Task, result: TaskResult) => void): Promise<TaskResult[]>;
  /** So many trials of the grid are not needed. */
  leaveOut(trials: number): void;
}

export interface TrackedRuns {
  /** The grid, of so many trials at most, in the runs that `body` makes. */
  grid<T extends { readonly finished: Promise<unknown> }>(trials: number, body: (part: GridPart) => T): T;
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

  const run = async (
    tasks: readonly Task[],
    onTrials: NonNullable<RunOptions["onTrials"]>,
    onResult: RunOptions["onResult"] = () => {},
  ) => {
    const results = await runner.run(tasks, {
      onTrials,
      onResult: (task, result) => {
        add(simulated, result);
        onResult(task, result);
      },
      ...(signal === undefined ? {} : { signal }),
    });
    for (const result of results) add(all, result);
    return results;
  };
  /** What has been done of a stage, told at each step where `isShown`. */
  const counted = (stage: Progress["stage"], of: () => number | null, isShown: () => boolean) => {
    const done = { trials: 0, cached: 0 };
    return (trials: number, source: "simulated" | "cached") => {
      done.trials += trials;
      if (source === "cached") done.cached += trials;
      if (isShown()) onProgress?.({ stage, ...done, of: of() });
    };
  };

  return {
    grid(trials, body) {
      gridTrials = trials;
      const onTrials = counted(
        "grid",
        () => gridTrials,
        () => true,
      );
      const grid = body({
        async run(tasks, onResult) {
          const results = await run(tasks, onTrials, onResult);
          for (const [place, task] of tasks.entries()) onResult(task, at(results, place));
          return results;
        },
        leaveOut: (count) => {
          gridTrials -= count;
        },
      });
      gridRun = grid.finished.then(() => {
        gridEnd = performance.now();
      });
      gridRun.catch(() => {}); // whoever waits for the grid reports it
      return grid;
    },
    search: (tasks) =>
      run(
        tasks,
        // A search that runs alongside the grid is not reported: the grid says how far the run is.
        counted(
          "boundaries",
          () => null,
          () => gridEnd !== null,
        ),
      ).catch(async (error: unknown) => {
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
