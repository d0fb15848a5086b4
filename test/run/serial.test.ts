import { describe, expect, it } from "vitest";
import { gridTasks, joined, tasksOf } from "../../src/run/chunks.js";
import { RunIncomplete } from "../../src/run/incomplete.js";
import { serialRunner } from "../../src/run/runner.js";
import { OUTCOMES } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { tinyPlan } from "./tiny-plan.js";

const plan = tinyPlan();
const tasks = gridTasks(plan, 8).slice(0, 4);

describe("the serial runner", () => {
  it("runs every task in order and reports its trials", async () => {
    const counts: number[] = [];
    const results = await serialRunner(plan).run(tasks, { onTrials: (trials) => counts.push(trials) });
    expect(counts).toEqual(tasks.map(({ p }) => p.length));
    const run = taskRunner(plan);
    expect(results).toEqual(tasks.map((task) => run(task)));
  });

  it("hears a signal between two tasks: the rest is missing", async () => {
    const controller = new AbortController();
    let done = 0;
    const onTrials = () => {
      if (++done === 2) setImmediate(() => controller.abort());
    };
    const error = await serialRunner(plan)
      .run(tasks, { signal: controller.signal, onTrials })
      .catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(RunIncomplete);
    expect(error).toMatchObject({ reason: "interrupted", missing: tasks.slice(2) });
  });

  it("closes", async () => {
    await expect(serialRunner(plan).close()).resolves.toBeUndefined();
  });
});

describe("a task", () => {
  const run = taskRunner(plan);
  const { p, d } = plan.sweep.grid.roll;

  it("gives each point the answer it gets alone, whatever was simulated before it", () => {
    const points = [
      [p[4], d[0]],
      [p[0], d[2]],
      [p[4], d[0]],
      [p[2], d[1]],
    ] as const;
    const [whole] = tasksOf(1, points).map(run);
    const alone = joined(tasksOf(1, points, 1).map((task) => taskRunner(plan)(task)));
    expect(alone).toEqual(whole);
  });

  it("may change variants to and fro", () => {
    const of = (variant: number) => tasksOf(variant, [[p[1], d[1]]])[0];
    const first = run(of(0));
    run(of(2));
    expect(run(of(0))).toEqual(first);
  });

  it("counts the steps it simulated", () => {
    const { controller } = plan.airframe;
    const { steps } = run(
      tasksOf(0, [
        [p[0], d[0]],
        [p[1], d[0]],
      ])[0],
    );
    expect(steps).toBe(2 * Math.round(plan.variants[0].script.duration * controller.rate));
  });

  it("of a variant the plan does not have is refused", () => {
    expect(() => run({ variant: plan.variants.length, p: Float64Array.of(1), d: Float64Array.of(0) })).toThrow(
      RangeError,
    );
  });

  it("far beyond the boundary does not die out, and nothing of it is no number", () => {
    const result = run(
      tasksOf(0, [
        [100 * p[4], 0],
        [p[0], 100 * d[2]],
      ])[0],
    );
    for (const outcome of result.outcome) expect(OUTCOMES[outcome]).not.toBe("dies out");
    for (const value of result.values) expect(Number.isFinite(value)).toBe(true);
  });
});
