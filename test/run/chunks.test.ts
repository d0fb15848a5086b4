import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MEASURE_IDS } from "../../src/base/measures.js";
import { gridTasks, joined, tasksOf } from "../../src/run/chunks.js";
import type { TaskResult } from "../../src/run/task.js";
import { tinyPlan } from "./tiny-plan.js";

const points = (count: number) => Array.from({ length: count }, (_, i) => [i, -i] as const);

describe("points cut into tasks", () => {
  it("come out whole and in order whatever the size of a task", () => {
    fc.assert(
      fc.property(fc.nat(300), fc.integer({ min: 1, max: 80 }), (count, size) => {
        const tasks = tasksOf(3, points(count), size);
        expect(tasks.flatMap(({ p, d }) => [...p].map((value, i) => [value, d[i]]))).toEqual(points(count));
        expect(tasks.every(({ variant, p, d }) => variant === 3 && p.length === d.length && p.length > 0)).toBe(true);
        expect(tasks.slice(0, -1).every(({ p }) => p.length === size)).toBe(true);
      }),
    );
  });

  it("no points are no tasks", () => {
    expect(tasksOf(0, [])).toEqual([]);
  });

  it("the grid goes variant by variant, P fastest, no task across two variants", () => {
    const plan = tinyPlan();
    const { p, d } = plan.sweep.grid.roll;
    const tasks = gridTasks(plan, 4);
    expect(tasks.length).toBe(plan.variants.length * Math.ceil((p.length * d.length) / 4));
    for (const { index } of plan.variants) {
      const mine = tasks.filter(({ variant }) => variant === index);
      expect(mine.flatMap((task) => [...task.p])).toEqual(d.flatMap(() => p));
      expect(mine.flatMap((task) => [...task.d])).toEqual(d.flatMap((gain) => p.map(() => gain)));
    }
    expect(tasks.map(({ variant }) => variant)).toEqual([...tasks.map(({ variant }) => variant)].sort((a, b) => a - b));
  });
});

describe("results joined", () => {
  const WIDTH = MEASURE_IDS.length;
  const result = (from: number, count: number): TaskResult => ({
    values: Float64Array.from({ length: count * WIDTH }, (_, i) => from * WIDTH + i),
    absent: Uint8Array.from({ length: count * WIDTH }, (_, i) => (from * WIDTH + i) % 8),
    outcome: Uint8Array.from({ length: count }, (_, i) => (from + i) % 3),
    until: Float64Array.from({ length: count }, (_, i) => from + i),
    steps: 100 * count,
  });

  it("are the result of one task over all the points", () => {
    expect(joined([result(0, 3), result(3, 1), result(4, 7)])).toEqual(result(0, 11));
    expect(joined([result(0, 5)])).toEqual(result(0, 5));
  });

  it("none are an empty result", () => {
    expect(joined([])).toEqual(result(0, 0));
  });
});
