// What a run will take, estimated before it from trials, steps and typical figures. For the user and for the check of
// free disk space, never for a result.
import { pointCount } from "../base/sizes.js";
import { mayLeaveOut } from "../map/settled.js";
import type { Plan, Variant } from "../plan/plan.js";
import { gridTasks } from "../run/chunks.js";
import { stepsPerTrial, trialWork } from "../run/work.js";
import { choosingDraws, judgingDraws } from "./draws.js";

export interface Estimate {
  readonly trials: number;
  /** Whether some of them may turn out not to be needed. */
  readonly atMost: boolean;
  readonly steps: number; // control periods
  /** Of the model, whose work is in the seconds and the memory, but not among the trials. */
  readonly draws: number;
  readonly workers: number;
  readonly seconds: number;
  readonly memory: number; // bytes
  readonly disk: number; // bytes, of one plan's report
}

/** ns a worker takes for a step of a quadrotor, kernel and measures: 14 to 23 on the machines tried, 2026-11-28. */
export const STEP_NANOSECONDS = 20;
const PACE = (1e-9 * STEP_NANOSECONDS) / 4; // s, a physics step of one rotor
const STARTING = 1; // s, to load and to start workers
const SETUP = 0.01; // s, of a variant: its noise and its commands
const SEARCH = 0.1; // of the grid's work: bisection and tunes
const TUNE = 1.5; // s, mostly in one thread: other seeds, strips, ladder, drawing
/** Of the grid's work, for each draw: what may decide there. First-tune of shipped craft, 2026-11-29. */
const PER_DRAW = 0.05;
/** s, mostly in one thread: theory of a thousand draws, and the start in those that judge it. */
const JUDGING_DRAWS = 18;

const MIB = 2 ** 20;
// Measured as peaks of the process on sweeps of 252 to 11 million trials, with draws and without, 2026-11-29.
const PROGRAM = 190 * MIB;
const WORKER = 45 * MIB;
const DRIVE = 80; // bytes a step of a variant that a worker caches, see run/setup-cache.ts
const MOST_DRIVES = 16 * MIB;
const SHARED_DRIVE = 128; // bytes a step of a variant, once for all threads, see run/shared-drives.ts
const MOST_SHARED_DRIVES = 128 * MIB;
const NOISE = 56; // bytes a step of a variant, once for all threads, see run/shared-noise.ts
const MOST_NOISE = 64 * MIB;
const OTHER_NOISE = 32 * MIB; // of other seeds and of draws, a worker at most, see run/noise-cache.ts
const DRAW = 0.05 * MIB; // its plan, in every thread
const THEORY = 0.4 * MIB; // of a draw with some six places an axis, see flow/draw-theories.ts
const MOST_THEORY = 64 * MIB;
const JUDGING = 90 * MIB; // what is asked of draws at once, and what it leaves behind
const TRIAL = 1500; // bytes
const REPORT = 1.2 * MIB;
const POINT = 900; // bytes of an axis's point in map and table

/** Threads with work to do: at most one per task of the grid. */
export const busyWorkers = (plan: Plan, workers: number): number => Math.min(workers, gridTasks(plan).length);

/** What shares of a command divide: the grid first, then the draws; the rest is left to who merges them. */
export type Stage = "grid" | "draws" | "all";

/** What simulating the plan takes at most, or one stage of it, with `cores` of the machine at work. */
export function estimateOf(plan: Plan, workers: number, cores: number, stage: Stage = "all"): Estimate {
  const { grid } = plan.sweep;
  const perTrial = stepsPerTrial(plan);
  const ofVariants = perTrial.reduce((sum, steps) => sum + steps, 0);
  const overGrid = (of: (variant: Variant) => number) =>
    plan.variants.reduce((sum, variant) => sum + pointCount(grid[variant.axis]) * of(variant), 0);
  const trials = overGrid(() => 1);
  const busy = busyWorkers(plan, workers);
  const draws = choosingDraws(plan);
  const ofGrid = PACE * overGrid((variant) => trialWork(plan, variant));
  const inGrid = ofGrid + SETUP * plan.variants.length;
  const inDraws = PER_DRAW * draws * ofGrid;
  const [inWorkers, here] = {
    grid: [inGrid, 0] as const,
    draws: [inDraws, 0] as const,
    all: [inGrid + inDraws + SEARCH * ofGrid, TUNE + (draws > 0 ? JUDGING_DRAWS : 0)] as const,
  }[stage];
  const ofTrials = stage === "draws" ? PER_DRAW * draws : 1;
  return {
    trials: ofTrials * trials,
    atMost: stage === "all" && mayLeaveOut(plan),
    steps: ofTrials * overGrid(({ index }) => perTrial[index] ?? 0),
    draws: stage === "all" ? draws : 0,
    workers: busy,
    seconds: STARTING + inWorkers / Math.min(busy, cores) + here,
    memory: PROGRAM + busy * workerMemory(ofVariants) + sharedMemory(ofVariants) + drawMemory(draws) + TRIAL * trials,
    disk: REPORT + POINT * (pointCount(grid.roll) + pointCount(grid.pitch)),
  };
}

/** `steps`: of one trial of each variant together. */
const workerMemory = (steps: number): number =>
  WORKER + Math.min(MOST_DRIVES, DRIVE * steps) + Math.min(OTHER_NOISE, NOISE * steps);

const sharedMemory = (steps: number): number =>
  Math.min(MOST_NOISE, NOISE * steps) + Math.min(MOST_SHARED_DRIVES, SHARED_DRIVE * steps);

function drawMemory(choosing: number): number {
  if (choosing === 0) return 0;
  const draws = choosing + judgingDraws(choosing);
  return JUDGING + DRAW * draws + Math.min(MOST_THEORY, THEORY * draws);
}
