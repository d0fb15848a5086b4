// The grid of one plan cut into tasks, variant by variant, and the results put together again.
import { MEASURE_IDS } from "../base/measures.js";
import { pointCount } from "../base/sizes.js";
import type { Plan, Variant } from "../plan/plan.js";
import type { Task, TaskResult } from "./task.js";

/** Points per task: about fifteen milliseconds of work, well over what passing it to a worker costs. */
const POINTS_PER_TASK = 128;
/** Points per task on a large grid: still many tasks per variant, but fewer messages. */
const MOST_POINTS_PER_TASK = 256;

/**
 * Every point of its axis's grid under every variant, [d][p] within a variant; without the points that are marked with 1 in
 * `leftOut`, counted in the same order.
 */
export function gridTasks(
  plan: Plan,
  pointsPerTask?: number,
  leftOut?: Readonly<Record<Variant["axis"], Uint8Array>>,
): Task[] {
  const pointsOf = (axis: Variant["axis"]) => {
    const { p, d } = plan.sweep.grid[axis];
    const all = d.flatMap((dGain) => p.map((pGain) => [pGain, dGain] as const));
    return leftOut === undefined ? all : all.filter((_, point) => leftOut[axis][point] !== 1);
  };
  const points = { roll: pointsOf("roll"), pitch: pointsOf("pitch") };
  return plan.variants.flatMap(({ index, axis }) =>
    tasksOf(index, points[axis], pointsPerTask ?? pointsPerGridTask(pointCount(plan.sweep.grid[axis]))),
  );
}

/** Of a grid of so many points. */
export const pointsPerGridTask = (points: number): number =>
  Math.ceil(Math.min(MOST_POINTS_PER_TASK, Math.max(POINTS_PER_TASK, points / 16)));

/** Given points under one variant; under another seed than the plan's, or of a draw, where one is given. */
export function tasksOf(
  variant: number,
  points: readonly (readonly [p: number, d: number, i?: number])[],
  pointsPerTask = POINTS_PER_TASK,
  { seed, draw }: Pick<Task, "seed" | "draw"> = {},
): Task[] {
  const tasks: Task[] = [];
  for (let from = 0; from < points.length; from += pointsPerTask) {
    const chunk = points.slice(from, from + pointsPerTask);
    tasks.push({
      variant,
      p: Float64Array.from(chunk, ([p]) => p),
      d: Float64Array.from(chunk, ([, d]) => d),
      ...(chunk[0]?.[2] === undefined ? {} : { i: Float64Array.from(chunk, ([, , i = Number.NaN]) => i) }),
      ...(seed === undefined ? {} : { seed }),
      ...(draw === undefined ? {} : { draw }),
    });
  }
  return tasks;
}

/** Results of consecutive tasks as one. */
export function joined(results: readonly TaskResult[]): TaskResult {
  const count = results.reduce((sum, result) => sum + result.outcome.length, 0);
  const width = MEASURE_IDS.length;
  const merged = {
    values: new Float64Array(count * width),
    absent: new Uint8Array(count * width),
    outcome: new Uint8Array(count),
    until: new Float64Array(count),
  };
  let at = 0;
  for (const result of results) {
    merged.values.set(result.values, at * width);
    merged.absent.set(result.absent, at * width);
    merged.outcome.set(result.outcome, at);
    merged.until.set(result.until, at);
    at += result.outcome.length;
  }
  return { ...merged, steps: results.reduce((sum, result) => sum + result.steps, 0) };
}
