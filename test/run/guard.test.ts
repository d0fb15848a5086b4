import { describe, expect, it } from "vitest";
import { type Clock, taskGuard } from "../../src/run/guard.js";

/** A clock that stands until it is moved. */
function standing() {
  let time = 0;
  let act: (() => void) | null = null;
  const clock: Clock = {
    now: () => time,
    every(_, each) {
      act = each;
      return () => {
        act = null;
      };
    },
  };
  return {
    clock,
    ticking: () => act !== null,
    /** `count` ticks, each after so many ms. */
    pass(count: number, milliseconds = 250) {
      for (let tick = 0; tick < count; tick++) {
        time += milliseconds;
        act?.();
      }
    },
  };
}

const struck = async (overdue: Promise<number>): Promise<number | null> => {
  const soon = new Promise<null>((resolve) => setImmediate(resolve, null));
  return Promise.race([overdue, soon]);
};

const LEAST = 120_000;

describe("the guard on a task", () => {
  it("strikes once it has run for longer than its limit, with the limit", async () => {
    const { clock, pass } = standing();
    const { overdue } = taskGuard(LEAST, clock)(1);
    pass(480);
    expect(await struck(overdue)).toBe(null);
    pass(1);
    expect(await struck(overdue)).toBe(LEAST);
  });

  it("counts no suspension: a process stopped for an hour, again and again, has hardly run", async () => {
    const { clock, pass } = standing();
    const { overdue } = taskGuard(LEAST, clock)(1);
    pass(100, 3_600_000);
    expect(await struck(overdue)).toBe(null);
    pass(81);
    expect(await struck(overdue)).toBe(LEAST);
  });

  it("counts no time that runs backwards", async () => {
    const { clock, pass } = standing();
    const { overdue } = taskGuard(LEAST, clock)(1);
    pass(10, -1e9);
    pass(479);
    expect(await struck(overdue)).toBe(null);
  });

  it("grants a large task more, in proportion", async () => {
    const { clock, pass } = standing();
    const { overdue } = taskGuard(LEAST, clock)(1e8); // at half a microsecond each, 50 s; ten times that
    pass(2000);
    expect(await struck(overdue)).toBe(null);
    pass(1);
    expect(await struck(overdue)).toBe(500_000);
  });

  it("follows the pace of the slowest task before it", async () => {
    const { clock, pass } = standing();
    const guard = taskGuard(LEAST, clock);
    for (const ticks of [4, 40, 8]) {
      const task = guard(1e6);
      pass(ticks);
      task.end(true);
    }
    const { overdue } = guard(2e6); // 10 s a million: 20 s; ten times that
    pass(800);
    expect(await struck(overdue)).toBe(null);
    pass(1);
    expect(await struck(overdue)).toBe(200_000);
  });

  it("learns nothing from a task that was lost", async () => {
    const { clock, pass } = standing();
    const guard = taskGuard(LEAST, clock);
    const lost = guard(1);
    pass(400);
    lost.end(false);
    const { overdue } = guard(1);
    pass(481);
    expect(await struck(overdue)).toBe(LEAST);
  });

  it("rests where no task is under way", () => {
    const { clock, ticking } = standing();
    const guard = taskGuard(LEAST, clock);
    const [one, other] = [guard(1), guard(1)];
    one.end(true);
    expect(ticking()).toBe(true);
    other.end(true);
    expect(ticking()).toBe(false);
  });
});
