import { describe, expect, it } from "vitest";
import { cachedRunner } from "../../src/run/cached.js";
import { tasksOf } from "../../src/run/chunks.js";
import { RunIncomplete } from "../../src/run/incomplete.js";
import { countingRunner, memoryStore, nameOf, resultOf } from "./memory-store.js";

const tasks = tasksOf(
  0,
  Array.from({ length: 10 }, (_, at) => [at + 1, 0] as const),
  2,
);

describe("a runner with a cache", () => {
  it("runs what is not cached and answers in the order of the tasks", async () => {
    const store = memoryStore();
    store.put(tasks[1], resultOf(tasks[1]));
    store.put(tasks[4], resultOf(tasks[4]));
    const inner = countingRunner();
    const results = await cachedRunner(() => inner, store).run(tasks);
    expect(results).toEqual(tasks.map(resultOf));
    expect(inner.requested).toEqual([tasks[0], tasks[2], tasks[3]]);
    expect(store.stored.size).toBe(5);
  });

  it("makes the runner behind when something has to be run, once, and closes what it made", async () => {
    const store = memoryStore();
    const inner = countingRunner();
    let made = 0;
    const runner = cachedRunner(() => {
      made++;
      return inner;
    }, store);
    await runner.run(tasks);
    await runner.run(tasks.slice().reverse());
    expect([made, inner.requested.length]).toEqual([1, tasks.length]);
    await runner.close();
    expect(inner.closed).toBe(1);
    await cachedRunner(() => expect.unreachable(), store).run(tasks);
    await cachedRunner(() => expect.unreachable(), store).close();
  });

  it("counts simulated and cached trials", async () => {
    const store = memoryStore();
    store.put(tasks[2], resultOf(tasks[2]));
    const counts = { simulated: 0, cached: 0 };
    const results: string[] = [];
    await cachedRunner(() => countingRunner(), store).run(tasks, {
      onTrials: (trials, source) => (counts[source] += trials),
      onResult: (task) => results.push(nameOf(task)),
    });
    expect(counts).toEqual({ simulated: 8, cached: 2 });
    expect(results).toEqual(tasks.filter((_, at) => at !== 2).map(nameOf));
  });
});

describe("a run that ends early", () => {
  it("has stored every task that was done, and says so", async () => {
    const store = memoryStore();
    const inner = countingRunner((task) => (task === tasks[3] ? new RunIncomplete("lost", tasks.slice(3)) : null));
    const error = await cachedRunner(() => inner, store)
      .run(tasks)
      .catch((thrown: unknown) => thrown);
    expect(error).toMatchObject({ name: "RunIncomplete", reason: "lost", resumable: true, missing: tasks.slice(3) });
    expect([...store.stored.keys()]).toEqual(tasks.slice(0, 3).map(nameOf));
    const second = countingRunner();
    expect(await cachedRunner(() => second, store).run(tasks)).toEqual(tasks.map(resultOf));
    expect(second.requested).toEqual(tasks.slice(3));
  });

  it("does not say so where the store does not last", async () => {
    const inner = countingRunner(() => new RunIncomplete("lost", tasks));
    const error = cachedRunner(() => inner, { ...memoryStore(), persistent: false }).run(tasks);
    await expect(error).rejects.toMatchObject({ resumable: false });
  });

  it("reacts to a signal while it reads the cache", async () => {
    const store = memoryStore();
    for (const task of tasks) store.put(task, resultOf(task));
    const controller = new AbortController();
    const run = cachedRunner(() => expect.unreachable(), store).run(tasks, {
      signal: controller.signal,
      onTrials: () => controller.abort(),
    });
    await expect(run).rejects.toMatchObject({ reason: "interrupted", missing: tasks.slice(1) });
  });

  it("passes a bug on as it is", async () => {
    const inner = countingRunner(() => new TypeError("a bug"));
    await expect(cachedRunner(() => inner, memoryStore()).run(tasks)).rejects.toThrow(TypeError);
  });
});
