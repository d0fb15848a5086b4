import { getEventListeners } from "node:events";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, it } from "vitest";
import type { Plan } from "../../src/plan/plan.js";
import { RunIncomplete } from "../../src/run/incomplete.js";
import { pooledRunner } from "../../src/run/pool.js";
import type { Runner, RunOptions } from "../../src/run/runner.js";
import type { Task } from "../../src/run/task.js";

const workerFile = (name: string): string => fileURLToPath(new URL(`./workers/${name}.mjs`, import.meta.url));

/** These workers never look at the plan. */
const PLAN = { variants: [] } as unknown as Plan;

const open: Runner[] = [];
function runnerWith(worker: string, workers = 2, taskTimeLimit = 10_000): Runner {
  const runner = pooledRunner(PLAN, { workers, taskTimeLimit, heapLimit: 64, workerFile: workerFile(worker) });
  open.push(runner);
  return runner;
}
afterEach(async () => {
  await Promise.all(open.splice(0).map((runner) => runner.close()));
});

const task = (number: number, variant = 0): Task => ({
  variant,
  p: Float64Array.of(number, number),
  d: Float64Array.of(number),
});
const tasks = (count: number, variants: Readonly<Record<number, number>> = {}): Task[] =>
  Array.from({ length: count }, (_, i) => task(i, variants[i]));

/** The RunIncomplete a run ends with; anything else, or no end, is the test's failure. */
async function incomplete(runner: Runner, requested: readonly Task[], options?: RunOptions): Promise<RunIncomplete> {
  const error = await runner.run(requested, options).then(
    () => new Error("the run was complete"),
    (thrown: unknown) => thrown,
  );
  if (error instanceof RunIncomplete) return error;
  throw error;
}

describe("a pool that works", () => {
  it.each([1, 2, 3])("answers in the order of the tasks, %d workers", async (workers) => {
    const results = await runnerWith("answers", workers).run(tasks(40, { 0: 4, 5: 4 }));
    expect(results.map(({ steps }) => steps)).toEqual(Array.from({ length: 40 }, (_, i) => i));
  });

  it("reports the trials of every finished task, and runs again", async () => {
    const runner = runnerWith("answers");
    let trials = 0;
    const onTrials = (count: number) => {
      trials += count;
    };
    await runner.run(tasks(10), { onTrials });
    await runner.run(tasks(5), { onTrials });
    expect(trials).toBe(30); // two trials a task
    expect(await runner.run([])).toEqual([]);
  });
});

describe("two runs at once", () => {
  it("share the workers, and each has its answers in its own order", async () => {
    const runner = runnerWith("answers", 2);
    const [one, other] = await Promise.all([runner.run(tasks(20, { 3: 4 })), runner.run(tasks(30, { 0: 4 }))]);
    expect(one.map(({ steps }) => steps)).toEqual(Array.from({ length: 20 }, (_, i) => i));
    expect(other.map(({ steps }) => steps)).toEqual(Array.from({ length: 30 }, (_, i) => i));
  });

  it("both end where a worker is lost, and say what each of them lacks", async () => {
    const runner = runnerWith("answers", 2);
    const [requested, also] = [tasks(10, { 4: 2 }), tasks(2000)];
    const [one, other] = await Promise.all([incomplete(runner, requested), incomplete(runner, also)]);
    expect(one.missing).toContain(requested[4]);
    expect(other.missing.length).toBeGreaterThan(0);
    expect(other.missing.every((task) => also.includes(task))).toBe(true);
  });
});

describe("a worker that is lost", () => {
  it.each([
    ["throws", "thrown in the worker"],
    ["exits", "a worker"],
    ["broken", "broken at load"],
    ["hoards", "memory"],
  ])("%s: the run ends incomplete and says why", async (worker, why) => {
    const requested = tasks(6);
    const { reason, missing } = await incomplete(runnerWith(worker), requested);
    expect(reason).toContain(why);
    expect(missing).toEqual(requested);
  });

  it("hangs: the run ends at the time limit", async () => {
    const { reason, missing } = await incomplete(runnerWith("hangs", 2, 300), tasks(6));
    expect(reason).toBe("a task took longer than 0.3 s");
    expect(missing.length).toBe(6);
  });

  it.each([
    ["exits", 2],
    ["hangs", 3],
  ])("%s after some tasks: what was done is not missing", async (_, variant) => {
    const requested = tasks(30, { 12: variant });
    let done = 0;
    const { missing } = await incomplete(runnerWith("answers", 1, 1000), requested, {
      onTrials: (count) => (done += count / 2),
    });
    expect(missing).toContain(requested[12]);
    expect(missing).not.toContain(requested[0]);
    expect(missing.length).toBe(requested.length - done);
  });

  it("is lost for the runs after it as well, at once", async () => {
    const runner = runnerWith("answers", 1);
    await incomplete(runner, tasks(3, { 1: 2 }));
    expect((await incomplete(runner, tasks(4))).missing.length).toBe(4);
  });

  it("leaves a pool that closes", async () => {
    for (const worker of ["throws", "exits", "hangs", "broken", "hoards"]) {
      const runner = pooledRunner(PLAN, {
        workers: 2,
        taskTimeLimit: 300,
        heapLimit: 64,
        workerFile: workerFile(worker),
      });
      await incomplete(runner, tasks(4));
      await expect(runner.close()).resolves.toBeUndefined();
    }
  });

  it("closes in the middle of a task that hangs", async () => {
    const runner = pooledRunner(PLAN, { workers: 1, taskTimeLimit: 60_000, workerFile: workerFile("hangs") });
    const run = incomplete(runner, tasks(2));
    await expect(runner.close()).resolves.toBeUndefined();
    expect((await run).missing.length).toBe(2);
  });
});

describe("a result", () => {
  it("is reported at once, also where the run is not completed", async () => {
    const requested = tasks(30, { 20: 2 });
    const received: number[] = [];
    await incomplete(runnerWith("answers", 1, 1000), requested, { onResult: (_, { steps }) => received.push(steps) });
    expect(received.length).toBeGreaterThan(10);
    expect(received).not.toContain(20);
  });
});

describe("a fault returned as data", () => {
  it("is an error with the worker's message and place, not an incomplete run", async () => {
    const error = await runnerWith("answers")
      .run(tasks(20, { 3: 1 }))
      .catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(Error);
    expect(error).not.toBeInstanceOf(RunIncomplete);
    expect((error as Error).message).toBe("reported by the worker\nat the worker");
  });

  it("starts no further task", async () => {
    const runner = runnerWith("answers", 1);
    let done = 0;
    await runner.run(tasks(200, { 0: 1 }), { onTrials: () => done++ }).catch(() => {});
    const atTheFault = done;
    for (let turn = 0; turn < 20; turn++) await runner.run(tasks(2));
    expect(done - atTheFault).toBeLessThanOrEqual(24); // the messages that were under way
  });
});

describe("a signal", () => {
  it("ends the run where it is, with the rest missing", async () => {
    const controller = new AbortController();
    const requested = tasks(50, Object.fromEntries(Array.from({ length: 50 }, (_, i) => [i, 4])));
    const onTrials = () => controller.abort();
    const { reason, missing } = await incomplete(runnerWith("answers"), requested, {
      signal: controller.signal,
      onTrials,
    });
    expect(reason).toBe("interrupted");
    expect(missing.length).toBeGreaterThan(0);
    expect(missing.length).toBeLessThan(50);
  });

  it("that was aborted before lets nothing through, even while a task hangs", async () => {
    const { missing } = await incomplete(runnerWith("hangs", 1, 60_000), tasks(3), { signal: AbortSignal.abort() });
    expect(missing.length).toBe(3);
  });

  it("leaves no listener behind", async () => {
    const controller = new AbortController();
    const runner = runnerWith("answers");
    for (let run = 0; run < 20; run++) await runner.run(tasks(2), { signal: controller.signal });
    expect(getEventListeners(controller.signal, "abort")).toEqual([]);
  });
});
