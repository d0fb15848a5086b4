import { setTimeout as later } from "node:timers/promises";
import { describe, expect, it } from "vitest";
import { runAlongside } from "../../src/flow/run-alongside.js";

const busy = (milliseconds: number) => {
  const until = performance.now() + milliseconds;
  while (performance.now() < until);
};

describe("work alongside that of others", () => {
  it("gives both results, and lets others have the thread meanwhile", async () => {
    const order: string[] = [];
    const others = (async () => {
      for (let k = 0; k < 3; k++) {
        await new Promise((resolve) => setImmediate(resolve));
        order.push("others");
      }
      return 1;
    })();
    const answers = await runAlongside(others, async (yieldIfDue) => {
      for (let k = 0; k < 20; k++) {
        busy(2);
        await yieldIfDue();
      }
      order.push("work");
      return 2;
    });
    expect(answers).toEqual([1, 2]);
    expect(order).toEqual(["others", "others", "others", "work"]);
  });

  it("goes no further where the others fail", async () => {
    let turns = 0;
    const failing = later(5).then(() => Promise.reject(new Error("lost")));
    const work = runAlongside(failing, async (yieldIfDue) => {
      for (;;) {
        turns++;
        busy(1);
        await yieldIfDue();
      }
    });
    await expect(work).rejects.toThrow("lost");
    const then = turns;
    await later(30);
    expect(turns).toBeLessThanOrEqual(then + 5);
  });
});
