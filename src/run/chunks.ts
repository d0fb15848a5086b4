// The grid of one plan cut into tasks, variant by variant, and the results put together again.
import { MEASURE_IDS } from "../base/measures.js";
import type { Plan } from "../plan/plan.js";
import type { Task, TaskResult } from "./task.js";

/** Points per task: about fifteen milliseconds of work, well over what passing it to a worker costs. */
const POINTS_PER_TASK = 128;
/** Points per task on a large grid: still many tasks per variant, but fewer messages. */
const MOST_POINTS_PER_TASK = 256;

/** Every point of its axis's grid under every variant, [d][p] within a variant. */
export function gridTasks(plan: Plan, pointsPerTask?: number): Task[] {
  const pointsOf = ({ p, d }: Plan["sweep"]["grid"]["roll"]) =>
    d.flatMap((dGain) => p.map((pGain) => [pGain, dGain] as const));
  const points = { roll: pointsOf(plan.sweep.grid.roll), pitch: pointsOf(plan.sweep.grid.pitch) };
  return plan.variants.flatMap(({ index, axis }) => {
    const { length } = points[axis];
    const size = pointsPerTask ?? Math.min(MOST_POINTS_PER_TASK, Math.max(POINTS_PER_TASK, length / 16));
    return tasksOf(index, points[axis], Math.ceil(size));
  });
}

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
