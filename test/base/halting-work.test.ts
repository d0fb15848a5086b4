import { expect, it } from "vitest";
import { runInTurns, runThrough } from "../../src/base/halting-work.js";

function* summing(numbers: readonly number[]): Generator<void, number> {
  let sum = 0;
  for (const one of numbers) {
    sum += one;
    yield;
  }
  return sum;
}

it("comes to the same in one go and in turns, with a turn for others at every halt", async () => {
  let turns = 0;
  const inTurns = await runInTurns(summing([1, 2, 4]), async () => {
    turns++;
  });
  expect([runThrough(summing([1, 2, 4])), inTurns, turns]).toEqual([7, 7, 3]);
});

it("stops where a turn is never given back, and where the work fails", async () => {
  const parts: number[] = [];
  function* counting(): Generator<void, void> {
    for (let k = 0; ; k++) {
      parts.push(k);
      yield;
    }
  }
  void runInTurns(counting(), () => new Promise(() => {}));
  await new Promise((resolve) => setImmediate(resolve));
  expect(parts).toEqual([0]);
  function* failing(): Generator<void, void> {
    yield;
    throw new RangeError("no such part");
  }
  await expect(runInTurns(failing(), async () => {})).rejects.toThrow("no such part");
});
