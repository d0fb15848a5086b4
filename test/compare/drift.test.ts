import { beforeAll, describe, expect, it } from "vitest";
import { VERDICTS } from "../../src/base/measures.js";
import type { Axis, Drift, ShiftLine } from "../../src/compare/format.js";
import { roomIn } from "../../src/compare/inside.js";
import type { StabilityMap } from "../../src/map/format.js";
import { driftOf, simulatedMap, slower, withAxis } from "./maps.js";

const AXES: readonly Axis[] = ["roll", "pitch"];
let [base, candidate] = [{} as StabilityMap, {} as StabilityMap];
let [there, back] = [{} as Drift, {} as Drift];

beforeAll(async () => {
  [base, candidate] = [await simulatedMap(), await simulatedMap(slower)];
  [there, back] = [driftOf(base, candidate), driftOf(candidate, base)];
});

const linesOf = (drift: Drift, axis: Axis): ShiftLine[] => {
  const { shift, byLevel, byVariant } = drift.axes[axis];
  return [shift, ...byLevel, ...byVariant];
};

describe("a map against itself", () => {
  it("has zero drift to the last digit and passes every gate that can be judged", () => {
    const drift = driftOf(base, base);
    for (const axis of AXES) {
      const { safe, verdicts, start } = drift.axes[axis];
      for (const line of linesOf(drift, axis))
        for (const { percent, state } of line.perD) expect(percent === null ? state : percent).toSatisfy(stillOrSilent);
      expect(safe).toMatchObject({ lost: 0, gained: 0, percent: 0 });
      expect(safe.before).toBeGreaterThan(3);
      expect(verdicts).toMatchObject({ worsened: 0, improved: 0, newSustained: 0, causes: [], changes: [] });
      expect([start.pPercent, start.dPercent]).toEqual([0, 0]);
    }
    expect(drift.model).toEqual([]);
    expect(drift.gates.map(({ outcome }) => outcome)).toEqual(Array(10).fill("pass"));
    expect(drift.outcome).toBe("pass");
  });
});

const stillOrSilent = (shifts: unknown): boolean =>
  Object.is(shifts, 0) || shifts === "beyond the grid" || shifts === "never stable";

describe("a slower filter", () => {
  it("brings the boundary down on both axes, at every throttle and pack state that shows one", () => {
    for (const axis of AXES) {
      expect(there.axes[axis].shift.lowest?.percent).toBeLessThan(-5);
      expect(there.axes[axis].byLevel).toHaveLength(4);
      const levels = there.axes[axis].byLevel.map(({ throttle, condition }) => `${throttle} ${condition}`);
      expect(levels).toEqual(["40 full", "40 tired", "70 full", "70 tired"]);
      for (const line of linesOf(there, axis))
        for (const { percent } of line.perD) expect(percent ?? -1).toBeLessThan(0);
    }
  });

  it("loses safe points, worsens verdicts and names who decides them", () => {
    for (const axis of AXES) {
      const { safe, verdicts } = there.axes[axis];
      expect(safe.lost).toBeGreaterThan(0);
      expect(safe.both + safe.lost).toBe(safe.before);
      expect(safe.both + safe.gained).toBe(safe.after);
      expect(safe.points.join("").replaceAll(".", "")).toHaveLength(safe.both + safe.lost + safe.gained);
      expect(verdicts.worsened).toBeGreaterThan(0);
      expect(verdicts.causes.reduce((sum, { worsened }) => sum + worsened, 0)).toBe(verdicts.worsened);
      expect(verdicts.causes[0]).toMatchObject({ script: "nudge", throttle: 70, condition: "full" });
      expect(verdicts.changes.reduce((sum, { points }) => sum + points, 0)).toBe(verdicts.worsened + verdicts.improved);
    }
  });

  it("is reported key by key", () => {
    expect(there.model).toEqual([{ key: "sensing.low_pass[0].cutoff", before: "180 Hz", after: "120 Hz" }]);
  });

  it("reports the pinned tune's verdict and margins on both sides", () => {
    for (const axis of AXES) {
      const { pinned } = there.axes[axis];
      expect(pinned?.before.margins.gainUp).toBeGreaterThan(pinned?.after.margins.gainUp as number);
      expect(pinned?.before.boundary.p).toBeGreaterThan(pinned?.after.boundary.p as number);
    }
  });

  it("is a regression, and turned round it is not one of the boundary", () => {
    expect(there.outcome).toBe("regression");
    expect(back.gates.filter(({ gate }) => gate === "boundaryFall").map(({ outcome }) => outcome)).not.toContain(
      "fail",
    );
  });
});

describe("stable ground apart, and points that theory decides", () => {
  it("are named: the range that is not compared in a note, theory among the causes", () => {
    const { boundary, verdict, decidedBy } = base.axes.roll;
    const at = verdict.flat().indexOf("clean");
    const [i, j] = [Math.floor(at / base.axes.roll.grid.p.length), at % base.axes.roll.grid.p.length];
    const change = <T>(table: readonly (readonly T[])[], value: T) =>
      table.map((row, r) => row.map((one, c) => (r === i && c === j ? value : one)));
    const sustained = boundary.sustained.map((point, row) =>
      row === 0 ? { ...point, from: 6, otherRanges: [[null, 4] as const] } : point,
    );
    const other = withAxis(base, "roll", {
      boundary: { ...boundary, sustained },
      verdict: change(verdict, "sustained"),
      decidedBy: change(decidedBy, -3),
    });
    const drift = driftOf(base, other);
    expect(drift.notes).toEqual(["A stable range of P lies apart from the one compared, roll now: D 0, P 3 to 4."]);
    expect(drift.axes.roll.verdicts.causes).toEqual([
      { script: "theory", throttle: 40, rate: 0, condition: "tired", worsened: 1, improved: 0 },
    ]);
  });
});

describe("swapping the sides", () => {
  it("flips the sign of every number", () => {
    for (const axis of AXES) {
      const [a, b] = [there.axes[axis], back.axes[axis]];
      expect([b.safe.lost, b.safe.gained]).toEqual([a.safe.gained, a.safe.lost]);
      expect([b.verdicts.worsened, b.verdicts.improved]).toEqual([a.verdicts.improved, a.verdicts.worsened]);
      expect([b.start.before?.p, b.start.after?.p]).toEqual([a.start.after?.p, a.start.before?.p]);
      const shifts = [
        [a.safe.percent, b.safe.percent],
        [a.start.pPercent, b.start.pPercent],
        [a.start.dPercent, b.start.dPercent],
      ];
      for (const [one, turned] of shifts) {
        expect(one).toBeTypeOf("number");
        expect(Math.sign(turned as number)).toBe(0 - Math.sign(one as number));
      }
      expect(a.pinned).not.toBe(null);
      expect(b.pinned).toEqual({ before: a.pinned?.after, after: a.pinned?.before });
      const [one, other] = [linesOf(there, axis), linesOf(back, axis)];
      for (const [at, line] of one.entries())
        for (const [row, { percent }] of line.perD.entries()) {
          const turned = other[at]?.perD[row]?.percent ?? null;
          if (percent !== null && turned !== null) expect(Math.sign(turned)).toBe(0 - Math.sign(percent));
        }
    }
    expect(back.model).toEqual(there.model.map(({ key, before, after }) => ({ key, before: after, after: before })));
  });
});

describe("the safe region between grid lines", () => {
  it("is the map's own at every grid point", () => {
    for (const axis of AXES)
      base.axes[axis].safe.forEach((row, i) => {
        row.forEach((safe, j) => {
          const [p, d] = [base.axes.roll.grid.p[j] as number, base.axes.roll.grid.d[i] as number];
          expect([p, d, (roomIn(base, axis, { p, d }) as number) >= 0]).toEqual([p, d, safe]);
        });
      });
  });

  it("holds the map's own starting tune, and nothing beyond the grid", () => {
    for (const axis of AXES) {
      const { start } = base.axes[axis];
      expect(roomIn(base, axis, start as { p: number; d: number })).toBeGreaterThan(0);
      expect(roomIn(base, axis, { p: 48, d: 1 })).toBe(null);
      expect(roomIn(base, axis, { p: 2, d: 1 })).toBe(null);
      expect(roomIn(base, axis, { p: 20, d: 2.1 })).toBe(null);
    }
  });
});

describe("new oscillation in safe ground", () => {
  it("counts the points that were safe and are sustained now, no others", () => {
    const { verdict, safe } = base.axes.roll;
    const worse = verdict.map((row, i) => row.map((was, j) => (safe[i]?.[j] ? "sustained" : was)));
    const drift = driftOf(base, withAxis(base, "roll", { verdict: worse as typeof verdict }));
    const count = safe.flat().filter(Boolean).length;
    expect(drift.axes.roll.verdicts).toMatchObject({ newSustained: count, worsened: count, improved: 0 });
    expect(drift.axes.pitch.verdicts.newSustained).toBe(0);
    expect(drift.gates.find(({ gate, axis }) => gate === "newSustained" && axis === "roll")).toMatchObject({
      outcome: "fail",
      value: count,
    });
    expect(VERDICTS[0]).toBe("sustained");
  });
});
