// The grid of a plan, simulated: first the variants that decide, at every point of both axes; then the others where a point is
// not settled, roll before pitch.
import { at } from "../base/at.js";
import { decidesFirst, mayLeaveOut, settledPoints } from "../map/settled.js";
import type { Plan } from "../plan/plan.js";
import { gridTasks, joined } from "../run/chunks.js";
import { RunIncomplete } from "../run/incomplete.js";
import type { Task, TaskResult } from "../run/task.js";
import type { Axis } from "../sweep/sweep.js";
import { axisByAxis, type GridByAxis, gridByAxis, type SettledByAxis } from "./grid-by-axis.js";
import { missingLines } from "./missing.js";
import type { GridPart } from "./tracked-runs.js";

/** A task of the grid with its result. */
export interface DoneTask {
  readonly task: Task;
  readonly result: TaskResult;
}

export interface GridRun {
  readonly tables: GridByAxis["tables"];
  /** Every task, by variant and point. Throws RunIncomplete. */
  readonly finished: Promise<readonly DoneTask[]>;
}

export interface GridRunOptions {
  readonly pointsPerTask?: number | undefined;
  /** How far around points that are not sustained trials are read, as `settledPoints` takes it. */
  readonly reach?: readonly number[] | undefined;
}

export function gridRun(plan: Plan, part: GridPart, options: GridRunOptions): GridRun {
  const grid = gridByAxis(plan);
  return { tables: grid.tables, finished: simulated(plan, part, grid, options) };
}

async function simulated(
  plan: Plan,
  part: GridPart,
  grid: GridByAxis,
  { pointsPerTask, reach }: GridRunOptions,
): Promise<DoneTask[]> {
  const whole = axisByAxis(plan, gridTasks(plan, pointsPerTask));
  const isFirst = ({ variant }: Task) => mayLeaveOut(plan) && decidesFirst(at(plan.variants, variant));
  const first = whole.filter(isFirst);
  const run = async (tasks: readonly Task[], notStarted: readonly Task[] = []): Promise<DoneTask[]> => {
    const results = await part
      .run(tasks, grid.put)
      .catch((error: unknown) => Promise.reject(withMissing(plan, error, notStarted)));
    return tasks.map((task, place) => ({ task, result: at(results, place) }));
  };
  const nudges = await run(
    first,
    whole.filter((task) => !isFirst(task)),
  );
  const settled = settledOf(plan, nudges, reach);
  const rest = axisByAxis(plan, gridTasks(plan, pointsPerTask, settled)).filter((task) => !isFirst(task));
  part.leaveOut(trialsOf(whole) - trialsOf(first) - trialsOf(rest));
  grid.expect([...first, ...rest], settled);
  const done = [...nudges, ...(await run(rest))];
  return done.sort((a, b) => a.task.variant - b.task.variant);
}

function settledOf(plan: Plan, nudges: readonly DoneTask[], reach: readonly number[] | undefined): SettledByAxis {
  const ofAxis = (axis: Axis) => {
    const tables = plan.variants
      .filter((variant) => variant.axis === axis && decidesFirst(variant))
      .map(({ index }) => nudges.filter(({ task }) => task.variant === index).map(({ result }) => result));
    return settledPoints(
      plan.sweep.grid[axis],
      tables.filter(({ length }) => length > 0).map((results) => joined(results)),
      reach,
    );
  };
  return { roll: ofAxis("roll"), pitch: ofAxis("pitch") };
}

/** What stopped the run, with the tasks that were still to come: at most so many, for which are needed was not known yet. */
function withMissing(plan: Plan, error: unknown, notStarted: readonly Task[]): unknown {
  if (!(error instanceof RunIncomplete) || notStarted.length === 0) return error;
  const missing = [...error.missing, ...notStarted];
  return new RunIncomplete(error.reason, missing, error.resumable, missingLines(plan, missing));
}

export const trialsOf = (tasks: readonly Task[]): number => tasks.reduce((sum, { p }) => sum + p.length, 0);
