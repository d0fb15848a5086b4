import { describe, expect, it } from "vitest";
import { gridByAxis } from "../../src/flow/grid-by-axis.js";
import type { Plan } from "../../src/plan/plan.js";
import type { Task, TaskResult } from "../../src/run/task.js";

const planOf = (...axes: readonly ("roll" | "pitch")[]) =>
  ({ variants: axes.map((axis, index) => ({ axis, index, script: { kind: "stop" } })) }) as unknown as Plan;
const task = (variant: number): Task => ({ variant, p: Float64Array.of(1), d: Float64Array.of(1) });
const result = (outcome: number): TaskResult => ({
  values: new Float64Array(15),
  absent: new Uint8Array(15),
  outcome: Uint8Array.of(outcome),
  until: Float64Array.of(1),
  steps: 4,
});
const two = new Uint8Array(2);

/** What a promise holds by now; undefined: nothing yet. */
const byNow = <T>(promise: Promise<T>): Promise<T | undefined> =>
  Promise.race([promise, new Promise<undefined>((resolve) => setImmediate(() => resolve(undefined)))]);

describe("the grid, axis by axis", () => {
  it("has an axis as soon as its last task is done, in the tasks' order, whatever came first", async () => {
    const tasks = [task(0), task(0), task(1), task(1), task(2), task(2)];
    const grid = gridByAxis(planOf("roll", "roll", "pitch"));
    grid.expect(tasks, { roll: two, pitch: two });
    for (const [place, outcome] of [
      [3, 0],
      [2, 2],
      [1, 1],
    ])
      grid.put(tasks[place], result(outcome));
    expect(await byNow(grid.tables.roll)).toBe(undefined);
    grid.put(tasks[0], result(0));
    const roll = await byNow(grid.tables.roll);
    expect([...(roll ?? [])].map(([variant, { outcome }]) => [variant, ...outcome])).toEqual([
      [0, 0, 1],
      [1, 2, 0],
    ]);
    expect(await byNow(grid.tables.pitch)).toBe(undefined);
    for (const last of [4, 5]) grid.put(tasks[last], result(0));
    expect([...(await grid.tables.pitch).keys()]).toEqual([2]);
  });

  it("waits until it is said what to expect, and gives points without a task no outcome", async () => {
    const tasks = [task(0), task(1)];
    const grid = gridByAxis(planOf("roll", "pitch"));
    grid.put(tasks[0], result(1));
    expect(await byNow(grid.tables.roll)).toBe(undefined);
    grid.expect(tasks, { roll: Uint8Array.of(1, 0), pitch: Uint8Array.of(0) });
    expect([...((await grid.tables.roll).get(0)?.outcome ?? [])]).toEqual([4, 1]);
  });

  it("counts a result once that comes twice", async () => {
    const tasks = [task(0), task(0)];
    const grid = gridByAxis(planOf("roll"));
    grid.expect(tasks, { roll: two, pitch: two });
    grid.put(tasks[0], result(1));
    grid.put(tasks[0], result(2));
    expect(await byNow(grid.tables.roll)).toBe(undefined);
    grid.put(tasks[1], result(0));
    expect([...((await grid.tables.roll).get(0)?.outcome ?? [])]).toEqual([1, 0]);
  });

  it("does not wait for an axis without tasks", async () => {
    const grid = gridByAxis(planOf("roll"));
    grid.expect([task(0)], { roll: new Uint8Array(1), pitch: two });
    expect([...(await grid.tables.pitch)]).toEqual([]);
  });
});
