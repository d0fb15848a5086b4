// From a plan to its map: the grid, the boundaries and the starting tune, all simulated by one runner.
import type { Document } from "../base/document.js";
import { TRIALS_READ_AROUND } from "../confidence/candidates.js";
import { reduceAxis } from "../map/axis.js";
import { buildMap, type Provenance } from "../map/build.js";
import { withDiverged } from "../map/diverged.js";
import type { StabilityMap } from "../map/format.js";
import { gridTheory } from "../map/grid-theory.js";
import type { Plan } from "../plan/plan.js";
import { NUDGE_DECAY } from "../response/sustained.js";
import { gridTasks } from "../run/chunks.js";
import type { Runner } from "../run/runner.js";
import type { Axis } from "../sweep/sweep.js";
import { askOf } from "./ask.js";
import { causesWhereNoStart } from "./causes.js";
import { divergedTrials } from "./diverged-trials.js";
import { drawJudges, type RunDraws, runDraws, withUncertainty } from "./draws.js";
import { gridRun, trialsOf } from "./grid-run.js";
import { withLadder } from "./ladder.js";
import { runAlongside } from "./run-alongside.js";
import { type RunnerChoice, runnerFor } from "./runner.js";
import { withStrips } from "./strips.js";
import { type RunFigures, type TrackingOptions, trackedRuns } from "./tracked-runs.js";

export interface SimulateOptions extends RunnerChoice, TrackingOptions {
  readonly pointsPerTask?: number;
  /** The document of the model, from whose spreads models are drawn; absent: none are. */
  readonly model?: Document;
  readonly provenance: Omit<Provenance, "trials" | "steps">;
}

interface Simulated {
  readonly map: StabilityMap;
  readonly figures: RunFigures;
}

/**
 * Simulates every trial of the plan and reduces them to its stability map. The same plan gives the same map whatever
 * the workers and chunks. Throws RunIncomplete when interrupted or when a worker is lost.
 */
export async function simulate(asWritten: Plan, options: SimulateOptions): Promise<Simulated> {
  const draws = runDraws(asWritten, options.model);
  const plan = draws?.plan ?? asWritten;
  const tasks = gridTasks(plan, options.pointsPerTask);
  const runner = runnerFor(plan, options, tasks.length);
  try {
    return await simulateWith(runner, plan, draws, trialsOf(tasks), options);
  } finally {
    await runner.close();
  }
}

async function simulateWith(
  runner: Runner,
  plan: Plan,
  draws: RunDraws | null,
  gridTrials: number,
  options: SimulateOptions,
): Promise<Simulated> {
  const { pointsPerTask, provenance } = options;
  const runs = trackedRuns(runner, options);
  const ask = askOf(runs.search, pointsPerTask);
  const counted = options.cache?.draws?.(plan) ?? null;
  if (counted !== null) runs.elsewhere({ trials: counted.roll.trials + counted.pitch.trials, steps: counted.steps });
  // While the second axis is simulated, the first is searched and reduced.
  const reach = draws === null ? undefined : TRIALS_READ_AROUND;
  const grid = runs.grid(gridTrials, (part) => gridRun(plan, part, { pointsPerTask, reach }));
  const [done, [roll, pitch]] = await runAlongside(grid.finished, async (yieldIfDue) => {
    const theories = {
      roll: await gridTheory(plan, "roll", yieldIfDue),
      pitch: await gridTheory(plan, "pitch", yieldIfDue),
    };
    const judges = await drawJudges(draws, yieldIfDue, counted);
    const reduced = async (axis: Axis) =>
      reduceAxis(plan, axis, await grid.tables[axis], theories[axis], ask, NUDGE_DECAY, yieldIfDue, judges[axis]);
    return Promise.all([reduced("roll"), reduced("pitch")]);
  });
  const causes = await causesWhereNoStart(plan, { roll, pitch }, options);
  const reducedMap = buildMap(plan, { roll, pitch }, { ...provenance, ...runs.cost() }, causes);
  const sureMap = withUncertainty(reducedMap, plan, draws, [roll, pitch]);
  const judgedMap = withDiverged(plan, sureMap, divergedTrials(done));
  const map = withLadder(plan, await withStrips(plan, judgedMap, { roll, pitch }, options));
  return { map, figures: runs.figures() };
}
