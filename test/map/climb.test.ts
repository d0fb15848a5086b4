import { describe, expect, it } from "vitest";
import { climbOf } from "../../src/map/climb.js";
import type { AxisMap, BoundaryPoint, StartingTune } from "../../src/map/format.js";

const start = (p: number, d: number, own: StartingTune["own"] = null) => ({ p, d, own }) as StartingTune;
const axis = (tune: StartingTune | null, sustained: readonly BoundaryPoint[] = []) =>
  ({ start: tune, boundary: { sustained } }) as unknown as AxisMap;
const never = [0, 1, 2].map((d): BoundaryPoint => ({ d, p: null, reason: "never" }));

describe("the climb", () => {
  it("raises P at low D, then D, and ends at the starting tune exactly", () => {
    const steps = climbOf({ roll: axis(start(20.123456, 1.987654), never), pitch: axis(null) });
    expect(steps.map(({ stage }) => stage).join("")).toBe("ppppddd");
    const rungs = steps.map(({ rungs }) => rungs.roll as { p: number; d: number });
    for (let k = 1; k < rungs.length; k++) {
      expect(rungs[k].p).toBeGreaterThanOrEqual(rungs[k - 1].p);
      expect(rungs[k].d).toBeGreaterThanOrEqual(rungs[k - 1].d);
    }
    expect(rungs.at(-1)).toEqual({ p: 20.123456, d: 1.987654 });
    expect(new Set(rungs.slice(0, 4).map(({ d }) => d)).size).toBe(1);
    expect(rungs[3].p).toBe(20.123456);
    expect(steps.every(({ rungs: { pitch } }) => pitch === undefined)).toBe(true);
  });

  it("asks for gentler manoeuvres on the first steps, and for the whole of them at the starting tune", () => {
    const shares = (roll: AxisMap) => climbOf({ roll, pitch: axis(null) }).map(({ share }) => share);
    expect(shares(axis(start(20, 2), never))).toEqual([0.4, 0.6, 0.8, 1, 1, 1, 1]);
    const from = [0, 1, 2].map((d): BoundaryPoint => ({ d, p: 25, from: 12 }));
    expect(shares(axis(start(20, 2), from))).toEqual([0.4, 1]);
  });

  it("keeps every step half a P again below the boundary, by starting from more D where it must", () => {
    // At D 0 and 1 oscillation sets in at P 25; a start at P 20 needs 30.
    const folded: BoundaryPoint[] = [
      { d: 0, p: 25 },
      { d: 1, p: 29 },
      { d: 2, p: 40 },
    ];
    const steps = climbOf({ roll: axis(start(20, 2), folded), pitch: axis(null) });
    expect(steps.map(({ rungs }) => rungs.roll?.d)).toEqual([2, 2, 2, 2]);
    const roomy = folded.map(({ d }): BoundaryPoint => ({ d, p: 31 }));
    expect(climbOf({ roll: axis(start(20, 2), roomy), pitch: axis(null) })[0]?.rungs.roll?.d).toBe(0.7);
  });

  it("never goes below the lower end of the stable range", () => {
    const from = [0, 1, 2].map((d): BoundaryPoint => ({ d, p: 60, from: 12 }));
    const steps = climbOf({ roll: axis(start(20, 2), from), pitch: axis(null) });
    expect(steps.filter(({ stage }) => stage === "p").map(({ rungs }) => rungs.roll?.p)).toEqual([15, 20]);
  });

  it("takes gains a controller can be set to", () => {
    const steps = climbOf({ roll: axis(start(9, 1.05, { p: 45, d: 52.5 }), never), pitch: axis(null) });
    const own = steps.slice(0, -1).map(({ rungs: { roll } }) => [(roll?.p ?? 0) * 5, (roll?.d ?? 0) * 50]);
    for (const [p, d] of own) {
      expect(p).toBeCloseTo(Math.round(p), 9);
      expect(d).toBeCloseTo(Math.round(d), 9);
    }
  });

  it("has both axes in one step, the shorter climb waiting at its first rung", () => {
    const folded: BoundaryPoint[] = [
      { d: 0, p: 25 },
      { d: 2, p: 40 },
    ];
    const steps = climbOf({ roll: axis(start(10, 1), never), pitch: axis(start(20, 2), folded) });
    expect(steps).toHaveLength(7);
    expect(steps.at(-1)?.rungs).toEqual({ roll: { p: 10, d: 1 }, pitch: { p: 20, d: 2 } });
    expect(steps.slice(4).map(({ rungs }) => rungs.pitch)).toEqual(Array(3).fill({ p: 20, d: 2 }));
  });

  it("is empty without a starting tune, and has no D steps for a start without D", () => {
    expect(climbOf({ roll: axis(null), pitch: axis(null) })).toEqual([]);
    const steps = climbOf({ roll: axis(start(10, 0), never), pitch: axis(null) });
    expect(steps.map(({ stage, rungs }) => [stage, rungs.roll?.d])).toEqual(Array(4).fill(["p", 0]));
  });
});
