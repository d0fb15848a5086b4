// From a plan to its map: the grid, the boundaries and the starting tune, all simulated by one runner.

import { at } from "../base/at.js";
import { reduceAxis } from "../map/axis.js";
import { buildMap, type Provenance } from "../map/build.js";
import { type DivergedTrial, withDiverged } from "../map/diverged.js";
import type { StabilityMap } from "../map/format.js";
import { gridTheory } from "../map/grid-theory.js";
import type { Ask, TrialRequest, TrialTable } from "../map/trials.js";
import type { Plan } from "../plan/plan.js";
import { NUDGE_DECAY } from "../response/sustained.js";
import { gridTasks, joined, tasksOf } from "../run/chunks.js";
import { RunIncomplete, type Runner, type RunOptions } from "../run/runner.js";
import { OUTCOMES, type Task, type TaskResult } from "../run/task.js";
import type { Axis } from "../sweep/sweep.js";
import { gridByAxis } from "./grid-by-axis.js";
import { withLadder } from "./ladder.js";
import { runAlongside } from "./run-alongside.js";
import { type RunnerChoice, runnerFor } from "./runner.js";

export interface SimulateOptions extends RunnerChoice {
  readonly pointsPerTask?: number;
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
  readonly provenance: Omit<Provenance, "trials" | "steps">;
}

export interface Progress {
  readonly stage: "grid" | "boundaries";
  readonly trials: number;
  /** Those of them that came from the cache. */
  readonly cached: number;
  /** Trials of the stage; null where the search decides as it goes. */
  readonly of: number | null;
}

/** What a run cost, to print and for benchmarks; never part of the map. */
export interface RunFigures {
  readonly trials: number;
  readonly steps: number;
  /** What was simulated; the rest came from the cache. */
  readonly simulated: { readonly trials: number; readonly steps: number };
  readonly gridTrials: number;
  readonly gridSeconds: number;
  /** From the end of the grid to the finished map: the rest of the search and the reduction. */
  readonly restSeconds: number;
}

/**
 * Simulates every trial of the plan and reduces them to its stability map. The same plan gives the same map whatever
 * the workers and chunks. Throws RunIncomplete when interrupted or when a worker is lost.
 */
export async function simulate(
  plan: Plan,
  options: SimulateOptions,
): Promise<{ map: StabilityMap; figures: RunFigures }> {
  const runner = runnerFor(plan, options, gridTasks(plan, options.pointsPerTask).length);
  try {
    return await simulateWith(runner, plan, options);
  } finally {
    await runner.close();
  }
}

async function simulateWith(
  runner: Runner,
  plan: Plan,
  options: SimulateOptions,
): Promise<{ map: StabilityMap; figures: RunFigures }> {
  const { pointsPerTask, onProgress } = options;
  const counted = { trials: 0, steps: 0 };
  const simulated = { trials: 0, steps: 0 };
  let gridDone: number | null = null;
  const run = async (tasks: readonly Task[], stage: Progress["stage"], callbacks: RunOptions = {}) => {
    const done = { trials: 0, cached: 0 };
    const of = stage === "grid" ? tasks.reduce((sum, task) => sum + task.p.length, 0) : null;
    const results = await runner.run(tasks, {
      onTrials: (trials, source) => {
        done.trials += trials;
        if (source === "cached") done.cached += trials;
        // A search that runs alongside the grid is not reported: the grid says how far the run is.
        if (stage === "grid" || gridDone !== null) onProgress?.({ stage, ...done, of });
      },
      onResult: (task, result) => {
        simulated.trials += result.outcome.length;
        simulated.steps += result.steps;
        callbacks.onResult?.(task, result);
      },
      ...(options.signal === undefined ? {} : { signal: options.signal }),
    });
    for (const result of results) {
      counted.trials += result.outcome.length;
      counted.steps += result.steps;
    }
    return results;
  };
  const ask: Ask = async (requests) => {
    const groups = new Map<string, Group>();
    for (const request of requests) {
      const group = groups.get(groupOf(request)) ?? { ...request, points: [] };
      groups.set(groupOf(request), group);
      group.points.push([request.p, request.d]);
    }
    const grouped = [...groups.values()].flatMap(({ variant, points, seed }) =>
      tasksOf(variant, points, pointsPerTask, seed),
    );
    const results = await run(grouped, "boundaries").catch(async (error: unknown) => {
      if (error instanceof RunIncomplete) await gridRun; // the grid ends early as well, and says what is missing
      throw error;
    });
    return inOrder(requests, groups, joined(results));
  };
  const started = performance.now();
  // One axis after the other: while the second is simulated, the first is searched and reduced.
  const inAnyOrder = gridTasks(plan, pointsPerTask);
  const tasks = AXES.flatMap((axis) => inAnyOrder.filter(({ variant }) => at(plan.variants, variant).axis === axis));
  const grid = gridByAxis(plan, tasks);
  const gridRun = run(tasks, "grid", { onResult: grid.put }).then((results) => {
    gridDone = performance.now();
    for (const [place, task] of tasks.entries()) grid.put(task, at(results, place)); // cached results come only now
    return results;
  });
  const [results, [roll, pitch]] = await runAlongside(gridRun, async (yieldIfDue) => {
    const theories = {
      roll: await gridTheory(plan, "roll", yieldIfDue),
      pitch: await gridTheory(plan, "pitch", yieldIfDue),
    };
    const reduced = async (axis: Axis) =>
      reduceAxis(plan, axis, await grid.tables[axis], theories[axis], ask, NUDGE_DECAY, yieldIfDue);
    return Promise.all([reduced("roll"), reduced("pitch")]);
  });
  const map = buildMap(plan, { roll, pitch }, { ...options.provenance, ...counted });
  const laddered = withLadder(plan, withDiverged(plan, map, divergedIn(tasks, results)));
  const gridEnd = gridDone ?? started;
  const figures = {
    ...counted,
    simulated,
    gridTrials: results.reduce((sum, { outcome }) => sum + outcome.length, 0),
    gridSeconds: (gridEnd - started) / 1000,
    restSeconds: (performance.now() - gridEnd) / 1000,
  };
  return { map: laddered, figures };
}

const AXES: readonly Axis[] = ["roll", "pitch"];

const DIVERGED = OUTCOMES.indexOf("diverged");

const divergedIn = (tasks: readonly Task[], results: readonly TaskResult[]): DivergedTrial[] =>
  results.flatMap(({ outcome, until }, place) => {
    const { variant, p, d } = at(tasks, place);
    return [...outcome.keys()]
      .filter((trial) => outcome[trial] === DIVERGED)
      .map((trial) => ({ variant, p: at(p, trial), d: at(d, trial), after: at(until, trial) }));
  });

/** Requests that share a trial setup. */
interface Group extends Pick<TrialRequest, "variant" | "seed"> {
  readonly points: [p: number, d: number][];
}

const groupOf = ({ variant, seed }: TrialRequest): string => `${variant} ${seed ?? ""}`;

/** Puts results that were run group by group back into the order of the requests. */
function inOrder(requests: readonly TrialRequest[], groups: ReadonlyMap<string, Group>, table: TrialTable): TrialTable {
  const next = new Map<string, number>();
  let first = 0;
  for (const [key, { points }] of groups) {
    next.set(key, first);
    first += points.length;
  }
  const width = table.values.length / Math.max(1, table.outcome.length);
  const sorted = {
    values: new Float64Array(table.values.length),
    absent: new Uint8Array(table.absent.length),
    outcome: new Uint8Array(table.outcome.length),
  };
  for (const [row, request] of requests.entries()) {
    const from = next.get(groupOf(request)) ?? 0;
    next.set(groupOf(request), from + 1);
    sorted.values.set(table.values.subarray(from * width, (from + 1) * width), row * width);
    sorted.absent.set(table.absent.subarray(from * width, (from + 1) * width), row * width);
    sorted.outcome[row] = at(table.outcome, from);
  }
  return sorted;
}
