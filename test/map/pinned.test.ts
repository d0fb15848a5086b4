import { beforeAll, describe, expect, it } from "vitest";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import type { StabilityMap } from "../../src/map/format.js";
import { simulatedMap } from "../compare/maps.js";
import { stretchedX } from "../fixtures/airframe.js";

// On a grid line of both gains, so that the grid's own points must say the same.
const [COLUMN, ROW] = [4, 2]; // P 19, D 1
let map = {} as StabilityMap;
beforeAll(async () => {
  const tune = { p: 19 * P_UNIT, d: 1 * D_UNIT };
  map = await simulatedMap(stretchedX, { pinned: { roll: tune, pitch: { ...tune, d: 0.75 * D_UNIT } } });
});

describe("the pinned tune", () => {
  it("has the verdict, margins and safety of the grid point it lies on", () => {
    const { pinned, verdict, margins, safe } = map.axes.roll;
    expect([map.axes.roll.grid.p[COLUMN], map.axes.roll.grid.d[ROW]]).toEqual([19, 1]);
    expect(pinned).toMatchObject({
      p: 19,
      d: 1,
      own: null,
      safe: safe[ROW]?.[COLUMN],
      verdict: verdict[ROW]?.[COLUMN],
    });
    expect(pinned?.margins.gainUp).toBeCloseTo(margins.gainUp[ROW]?.[COLUMN] as number, 9);
    expect(pinned?.margins.phase).toBeCloseTo(margins.phase[ROW]?.[COLUMN] as number, 9);
  });

  it("has the boundary of the D line it lies on, with who ends it", () => {
    const { pinned, boundary } = map.axes.roll;
    expect(pinned?.boundary).toEqual(boundary.sustained[ROW]);
    expect(pinned?.boundary.script).toBe("nudge");
  });

  it("between two D lines has a boundary between theirs", () => {
    const { pinned, boundary } = map.axes.pitch;
    const [below, above] = [boundary.sustained[1]?.p as number, boundary.sustained[2]?.p as number];
    expect(pinned?.d).toBe(0.75);
    expect(pinned?.boundary.p).toBeGreaterThan(Math.min(below, above));
    expect(pinned?.boundary.p).toBeLessThan(Math.max(below, above));
  });

  it("is absent where the sweep pins none", async () => {
    const bare = await simulatedMap(stretchedX, { pinned: null });
    expect(["roll", "pitch"].map((axis) => "pinned" in bare.axes[axis as "roll"])).toEqual([false, false]);
    expect(bare.axes.roll.verdict).toEqual(map.axes.roll.verdict);
  });
});
