// The grid's two runs: nudges everywhere, then the others where they can still decide.
import { describe, expect, it } from "vitest";
import { gridRun, trialsOf } from "../../src/flow/grid-run.js";
import type { Plan } from "../../src/plan/plan.js";
import { gridTasks } from "../../src/run/chunks.js";
import { RunIncomplete } from "../../src/run/incomplete.js";
import type { Task, TaskResult } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { stillPlan } from "../run/tiny-plan.js";

const plan = stillPlan(7, { p: [12, 40, 60, 80, 100, 120], d: [1, 3, 5, 7] });
const run = taskRunner(plan);
const kindOf = ({ variant }: Task) => plan.variants[variant].script.kind;
const all = gridTasks(plan);
const nudges = all.filter((task) => kindOf(task) === "nudge");

async function started(asked: Plan, stopAt = Number.POSITIVE_INFINITY) {
  const runs: (readonly Task[])[] = [];
  let leftOut = 0;
  const part = {
    async run(tasks: readonly Task[], onResult: (task: Task, result: TaskResult) => void): Promise<TaskResult[]> {
      runs.push(tasks);
      if (runs.length === stopAt) throw new RunIncomplete("interrupted", tasks.slice(1), true);
      return tasks.map((task) => {
        const result = run(task);
        onResult(task, result);
        return result;
      });
    },
    leaveOut: (trials: number) => {
      leftOut += trials;
    },
  };
  const { tables, finished } = gridRun(asked, part, {});
  const done = await finished.catch((error: unknown) => error);
  return { runs, leftOut, tables, done };
}

describe("the grid", () => {
  it("is simulated under nudges first, then under the others where points are not settled", async () => {
    const { runs, leftOut, tables, done } = await started(plan);
    expect(runs.map((tasks) => [...new Set(tasks.map(kindOf))])).toEqual([["nudge"], ["wobble"]]);
    expect(runs[0]).toEqual(nudges);
    expect(leftOut).toBeGreaterThan(0);
    expect(trialsOf(runs.flat())).toBe(trialsOf(all) - leftOut);
    const { outcome } = (await tables.roll).get(2) as { outcome: Uint8Array };
    expect(outcome.length).toBe(24);
    expect((done as { task: Task }[]).map(({ task }) => task.variant)).toEqual([0, 1, 2, 3]);
  });

  it("is one run of everything where the sweep asks for all", async () => {
    const { runs, leftOut } = await started({ ...plan, sweep: { ...plan.sweep, everyTrial: true } });
    expect(runs[0]).toEqual([]);
    expect(trialsOf(runs[1])).toBe(trialsOf(all));
    expect(leftOut).toBe(0);
  });

  it("that is stopped among the nudges says that the others are missing as well", async () => {
    const { done } = await started(plan, 1);
    expect(done).toBeInstanceOf(RunIncomplete);
    const { reason, missing, resumable, details } = done as RunIncomplete;
    expect([reason, resumable]).toEqual(["interrupted", true]);
    expect(trialsOf(missing)).toBe(trialsOf(all) - trialsOf(nudges.slice(0, 1)));
    expect(details.join("\n")).toContain("24 of wash, roll");
  });

  it("that is stopped among the others says what is missing of these alone", async () => {
    const { runs, done } = await started(plan, 2);
    expect((done as RunIncomplete).missing).toEqual(runs[1].slice(1));
  });
});
