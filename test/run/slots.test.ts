import { describe, expect, it } from "vitest";
import { slotsFor } from "../../src/run/slots.js";

const soon = () => new Promise((resolve) => setImmediate(resolve));

describe("slots", () => {
  it("let in so many at once, the others in the order they came", async () => {
    const { enter } = slotsFor(2);
    const inside: number[] = [];
    const leaves: (() => void)[] = [];
    for (let guest = 0; guest < 5; guest++)
      void enter().then((leave) => {
        inside.push(guest);
        leaves.push(leave);
      });
    await soon();
    expect(inside).toEqual([0, 1]);
    leaves[1]();
    await soon();
    expect(inside).toEqual([0, 1, 2]);
    leaves[0]();
    leaves[2]();
    await soon();
    expect(inside).toEqual([0, 1, 2, 3, 4]);
  });

  it("are free again when all have left", async () => {
    const { enter } = slotsFor(1);
    (await enter())();
    (await enter())();
    const leave = await enter();
    let late = false;
    void enter().then(() => {
      late = true;
    });
    await soon();
    expect(late).toBe(false);
    leave();
    await soon();
    expect(late).toBe(true);
  });
});
