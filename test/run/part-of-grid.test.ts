import { describe, expect, it } from "vitest";
import { gridTasks, joined, tasksOf } from "../../src/run/chunks.js";
import { partOfGrid } from "../../src/run/part-of-grid.js";
import type { Task, TaskResult } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { stillPlan } from "./tiny-plan.js";

const plan = stillPlan();
const run = taskRunner(plan);
const sameTask = (one: Task, other: Task) =>
  one.variant === other.variant && one.p.join() === other.p.join() && one.d.join() === other.d.join();
const tasks = gridTasks(plan);
const results = tasks.map(run);
const lookUps: Task[] = [];
const stored = (task: Task): TaskResult | null => {
  lookUps.push(task);
  return results[tasks.findIndex((one) => sameTask(one, task))] ?? null;
};
const { p, d } = plan.sweep.grid.roll;
const SOME = [1, 4, 11, 7].map((point) => [p[point % p.length], d[Math.floor(point / p.length)]] as const);

describe("tasks of some points of a grid", () => {
  it("are answered from the whole grid's results, as if they had been simulated", () => {
    const get = partOfGrid(plan, stored);
    for (const { index } of plan.variants) {
      const [task] = tasksOf(index, SOME);
      expect(get(task)).toEqual(run(task));
    }
    expect(joined([get(tasksOf(0, SOME)[0]) as TaskResult])).toEqual(run(tasksOf(0, SOME)[0]));
  });

  it("look each stored task up once, however many points are asked for", () => {
    const get = partOfGrid(plan, stored);
    lookUps.length = 0;
    for (const point of SOME) get(tasksOf(1, [point])[0]);
    expect(lookUps.filter((task) => sameTask(task, tasks[1]))).toHaveLength(1);
  });

  it("are not answered off the grid, under another seed or with another I, or where a part is not stored", () => {
    const get = partOfGrid(plan, stored);
    expect(get(tasksOf(0, [...SOME, [p[0] * 1.01, d[0]]])[0])).toBe(null);
    const [task] = tasksOf(0, SOME);
    expect(get({ ...task, seed: 8 })).toBe(null);
    expect(get({ ...task, draw: 0 })).toBe(null);
    expect(get({ ...task, i: Float64Array.from(task.p) })).toBe(null);
    expect(partOfGrid(plan, () => null)(task)).toBe(null);
  });
});
