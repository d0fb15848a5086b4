import { describe, expect, it } from "vitest";
import { ABSENCES, MEASURE_IDS } from "../../src/base/measures.js";
import { SCRIPT_KINDS } from "../../src/base/script-kinds.js";
import { fieldOf } from "../../src/map/field.js";
import { leftOutOf, mayLeaveOut, overWholeGrid, settledPoints } from "../../src/map/settled.js";
import type { TrialTable } from "../../src/map/trials.js";
import { worstPoint } from "../../src/map/worst.js";
import type { Plan, Variant } from "../../src/plan/plan.js";
import { defaultLimits, outcomes, tableOf } from "./tables.js";

const P = [1, 2, 3, 4, 5, 6, 7, 8];
const D = [0, 1, 2, 3];
const GRID = { p: P, d: D };
const LEFT_OUT = (ABSENCES as readonly string[]).indexOf("sustained under a nudge, not simulated");

/** Rows of D, the first one on top; a dot dies out. */
const drawing = (...rows: string[]): TrialTable => outcomes([...rows.join("")].map((one) => one === "."));
const drawn = (settled: Uint8Array): string[] =>
  D.map((_, row) =>
    [...settled.subarray(row * P.length, (row + 1) * P.length)].map((one) => (one === 1 ? "#" : ".")).join(""),
  );

const variant = (kind: keyof typeof SCRIPT_KINDS) => ({ script: { kind } }) as Variant;

describe("settled points", () => {
  it("are those with nothing but sustained oscillations around them, in any of the variants that decide", () => {
    const one = drawing("...sssss", "....ssss", "..ssssss", "ssssssss");
    const other = drawing("........", "........", "....ssss", "ssssssss");
    expect(drawn(settledPoints(GRID, [one, other]))).toEqual([".....##.", ".....##.", ".....##.", "...####."]);
  });

  it("are never at the ends of a row, and none where nothing decides", () => {
    expect(drawn(settledPoints(GRID, [drawing("ssssssss", "ssssssss", "ssssssss", "ssssssss")]))).toEqual(
      D.map(() => ".######."),
    );
    expect(settledPoints(GRID, []).some(Boolean)).toBe(false);
  });

  it("lie beyond the reach of points that are not sustained, one factor after the other", () => {
    const nudge = drawing(".sssssss", ".sssssss", ".sssssss", ".sssssss");
    // Within a factor of 3 of P 1 lie 2 and 3, within 2 of these 4, 5 and 6.
    expect(drawn(settledPoints(GRID, [nudge], [3, 2]))).toEqual(D.map(() => "......#."));
  });

  it("are looked for only where a nudge decides for others and the sweep does not ask for all", () => {
    const planOf = (everyTrial: boolean, ...kinds: (keyof typeof SCRIPT_KINDS)[]) =>
      ({ sweep: everyTrial ? { everyTrial } : {}, variants: kinds.map(variant) }) as unknown as Plan;
    expect(mayLeaveOut(planOf(false, "nudge", "stop"))).toBe(true);
    expect(mayLeaveOut(planOf(true, "nudge", "stop"))).toBe(false);
    expect(mayLeaveOut(planOf(false, "nudge"))).toBe(false);
    expect(mayLeaveOut(planOf(false, "stop"))).toBe(false);
  });
});

describe("trials that were left out", () => {
  const settled = Uint8Array.of(0, 1, 0);
  const stop = overWholeGrid(
    variant("stop"),
    settled,
    tableOf([
      { overshoot: 3, growth: -1 },
      { overshoot: 5, growth: 2 },
    ]),
  );
  const nudge = tableOf([{ growth: -2 }, { growth: 1, ringFrequency: 9 }, { growth: 1 }]);
  const worst = (row: number) =>
    worstPoint([
      { variant: 0, table: nudge, row },
      { variant: 1, table: stop, row },
    ]);

  it("leave a gap in the table, the rest in its place", () => {
    expect([...stop.outcome]).toEqual([0, 4, 0]);
    expect([worst(0).overshoot.value, worst(2).overshoot.value]).toEqual([3, 5]);
  });

  it("make every measure that they would have shown absent, whatever others show; the rest stays", () => {
    const { growth, overshoot, ringFrequency, heat } = worst(1);
    for (const one of [growth, overshoot, ringFrequency])
      expect(one).toEqual({ value: null, absent: LEFT_OUT, variant: -1 });
    expect(ABSENCES[heat.absent]).toBe("this script does not show it");
    for (const kind of Object.keys(SCRIPT_KINDS) as (keyof typeof SCRIPT_KINDS)[]) {
      const { absent } = overWholeGrid(variant(kind), settled, tableOf([{}, {}]));
      const ids = MEASURE_IDS.filter((_, k) => absent[MEASURE_IDS.length + k] === LEFT_OUT);
      expect(ids).toEqual(expect.arrayContaining([...SCRIPT_KINDS[kind].measures, "growth", "oscillation", "limited"]));
      expect(ids.length).toBe(SCRIPT_KINDS[kind].measures.length + 3);
    }
  });

  it("are counted by points and trials", () => {
    expect(
      leftOutOf(
        new Map([
          [0, nudge],
          [1, stop],
          [2, stop],
        ]),
      ),
    ).toEqual({ points: 1, trials: 2 });
    expect(leftOutOf(new Map([[0, nudge]]))).toBe(null);
  });

  it("leave no room to the limits of what they would have shown", () => {
    const margins = { gainUp: 1, gainDown: null, phase: 1, gainBy: -1, phaseBy: -1 };
    const open = { from: 1, to: 3, fromOpen: true, toOpen: true, fromBy: -1, toBy: -1 };
    const { constraints } = fieldOf({
      p: [1, 2, 3],
      d: [0],
      worst: [0, 1, 2].map(worst),
      margins: [margins, margins, margins],
      sustained: [open],
      limits: defaultLimits,
      required: { gain: 1, phase: 1 },
    });
    const roomOf = (name: string) => [...(constraints.find((one) => one.name === name)?.room ?? [])];
    expect(roomOf("overshoot")).toEqual([0.8, -1, (15 - 5) / 15]);
    expect(roomOf("heat")).toEqual([1, 1, 1]);
  });
});
