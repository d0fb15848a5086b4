import { describe, expect, it } from "vitest";
import { gridByAxis } from "../../src/flow/grid-by-axis.js";
import type { Plan } from "../../src/plan/plan.js";
import type { Task, TaskResult } from "../../src/run/task.js";

const planOf = (...axes: readonly ("roll" | "pitch")[]) =>
  ({ variants: axes.map((axis, index) => ({ axis, index })) }) as unknown as Plan;
const task = (variant: number): Task => ({ variant, p: Float64Array.of(1), d: Float64Array.of(1) });
const result = (outcome: number): TaskResult => ({
  values: new Float64Array(15),
  absent: new Uint8Array(15),
  outcome: Uint8Array.of(outcome),
  until: Float64Array.of(1),
  steps: 4,
});

/** What a promise holds by now; undefined: nothing yet. */
const byNow = <T>(promise: Promise<T>): Promise<T | undefined> =>
  Promise.race([promise, new Promise<undefined>((resolve) => setImmediate(() => resolve(undefined)))]);

describe("the grid, axis by axis", () => {
  it("has an axis as soon as its last task is done, in the tasks' order, whatever came first", async () => {
    const tasks = [task(0), task(0), task(1), task(2)];
    const { tables, put } = gridByAxis(planOf("roll", "roll", "pitch"), tasks);
    put(tasks[2], result(2));
    put(tasks[1], result(1));
    expect(await byNow(tables.roll)).toBe(undefined);
    put(tasks[0], result(0));
    const roll = await byNow(tables.roll);
    expect([...(roll ?? [])].map(([variant, { outcome }]) => [variant, ...outcome])).toEqual([
      [0, 0, 1],
      [1, 2],
    ]);
    expect(await byNow(tables.pitch)).toBe(undefined);
    put(tasks[3], result(0));
    expect([...(await tables.pitch).keys()]).toEqual([2]);
  });

  it("counts a result once that comes twice", async () => {
    const tasks = [task(0), task(0)];
    const { tables, put } = gridByAxis(planOf("roll"), tasks);
    put(tasks[0], result(1));
    put(tasks[0], result(2));
    expect(await byNow(tables.roll)).toBe(undefined);
    put(tasks[1], result(0));
    expect([...((await tables.roll).get(0)?.outcome ?? [])]).toEqual([1, 0]);
  });

  it("does not wait for an axis without tasks", async () => {
    const { tables } = gridByAxis(planOf("roll"), [task(0)]);
    expect([...(await tables.pitch)]).toEqual([]);
  });
});
