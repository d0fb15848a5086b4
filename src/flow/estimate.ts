// What a run will take, estimated before it from trials, steps and typical figures. For the user and for the check of
// free disk space, never for a result.
import { pointCount } from "../base/sizes.js";
import type { Plan, Variant } from "../plan/plan.js";
import { gridTasks } from "../run/chunks.js";
import { stepsPerTrial, trialWork } from "../run/work.js";

export interface Estimate {
  readonly trials: number;
  readonly steps: number; // control periods
  readonly workers: number;
  readonly seconds: number;
  readonly memory: number; // bytes
  readonly disk: number; // bytes, of one plan's report
}

/** s a worker takes for a physics step of one rotor: 15 ns a step for a quadrotor, kernel and measures. */
const PACE = 15e-9 / 4;
const STARTING = 1; // s, to load and to start workers
const SEARCH = 1.1; // times the grid, with bisection and tunes

const MIB = 2 ** 20;
// Measured as peaks of the process on sweeps of 252 to 98 304 trials.
const PROGRAM = 130 * MIB;
const WORKER = 20 * MIB;
const DRIVE = 80; // bytes a step of a variant that a worker caches, see run/setup-cache.ts
const MOST_DRIVES = 128 * MIB;
const TRIAL = 1500; // bytes
const REPORT = 1.2 * MIB;
const POINT = 900; // bytes of an axis's point in map and table

/** Threads with work to do: at most one per task of the grid. */
export const busyWorkers = (plan: Plan, workers: number): number => Math.min(workers, gridTasks(plan).length);

/** What simulating the plan takes at most, with `cores` of the machine at work. */
export function estimateOf(plan: Plan, workers: number, cores: number): Estimate {
  const { grid } = plan.sweep;
  const perTrial = stepsPerTrial(plan);
  const ofVariants = perTrial.reduce((sum, steps) => sum + steps, 0);
  const overGrid = (of: (variant: Variant) => number) =>
    plan.variants.reduce((sum, variant) => sum + pointCount(grid[variant.axis]) * of(variant), 0);
  const trials = overGrid(() => 1);
  const busy = busyWorkers(plan, workers);
  const work = SEARCH * PACE * overGrid((variant) => trialWork(plan, variant));
  return {
    trials,
    steps: overGrid(({ index }) => perTrial[index] ?? 0),
    workers: busy,
    seconds: STARTING + work / Math.min(busy, cores),
    memory: PROGRAM + busy * (WORKER + Math.min(MOST_DRIVES, DRIVE * ofVariants)) + TRIAL * trials,
    disk: REPORT + POINT * (pointCount(grid.roll) + pointCount(grid.pitch)),
  };
}
