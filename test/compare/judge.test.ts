import { describe, expect, it } from "vitest";
import { type AllGates, DEFAULT_GATES, MAP_GATES, type MapGateId } from "../../src/base/gates.js";
import type { AxisDrift, GateResult, ShiftAtD, SkipReason } from "../../src/compare/format.js";
import { judgeAxis, outcomeOf } from "../../src/compare/judge.js";
import type { PinnedPoint } from "../../src/map/format.js";

const shiftAt = (d: number, percent: number | null, state: ShiftAtD["state"] = "moved"): ShiftAtD => ({
  d,
  base: 30,
  candidate: 30,
  state,
  percent,
});

const pinnedPoint = (safe: boolean): PinnedPoint => ({
  p: 10,
  d: 1,
  own: null,
  verdict: "clean",
  decidedBy: null,
  measures: {},
  margins: { gainUp: 8, gainDown: null, phase: 50 },
  safe,
  boundary: { d: 1, p: 30 },
});

/** Nothing moved; ten safe points on the second and third of four D lines. */
const STILL: AxisDrift = {
  shift: { perD: [0, 1, 2, 3].map((d) => shiftAt(d, 0)), lowest: null, highest: null },
  byLevel: [],
  byVariant: [],
  safe: {
    of: 40,
    before: 10,
    after: 10,
    both: 10,
    lost: 0,
    gained: 0,
    percent: 0,
    points: ["...", "bbb", "bb.", "..."],
  },
  verdicts: { worsened: 0, improved: 0, same: 40, newSustained: 0, causes: [], changes: [] },
  start: {
    before: { p: 10, d: 1, roomInOther: 0.2 },
    after: { p: 10, d: 1, roomInOther: 0.2 },
    pPercent: 0,
    dPercent: 0,
  },
  pinned: { before: pinnedPoint(true), after: pinnedPoint(true) },
};

const shifted = (...percents: (number | null)[]): AxisDrift => ({
  ...STILL,
  shift: { ...STILL.shift, perD: percents.map((percent, d) => shiftAt(d, percent)) },
});

const shrunk = (percent: number | null): AxisDrift => ({ ...STILL, safe: { ...STILL.safe, percent } });

const newSustained = (points: number): AxisDrift => ({
  ...STILL,
  verdicts: { ...STILL.verdicts, newSustained: points },
});

const started = (before: number | null, after: number | null): AxisDrift => ({
  ...STILL,
  start: {
    ...STILL.start,
    before: { p: 10, d: 1, roomInOther: before },
    after: { p: 10, d: 1, roomInOther: after },
  },
});

const pinned = (before: boolean, after: boolean): AxisDrift => ({
  ...STILL,
  pinned: { before: pinnedPoint(before), after: pinnedPoint(after) },
});

function judged(id: MapGateId, drift: AxisDrift, gates: AllGates = DEFAULT_GATES): GateResult {
  const found = judgeAxis("roll", drift, gates).find(({ gate }) => gate === id);
  if (found === undefined) throw new Error(`no result for ${id}`);
  return found;
}

describe("nothing moved", () => {
  it("passes every gate", () => {
    const results = judgeAxis("pitch", STILL, DEFAULT_GATES);
    expect(results.map(({ gate, outcome }) => [gate, outcome])).toEqual(MAP_GATES.map(({ id }) => [id, "pass"]));
    expect(outcomeOf(results)).toBe("pass");
  });
});

// Either side of every threshold, as near as a percent written with one decimal can be.
const SIDES: readonly (readonly [MapGateId, string, AxisDrift, GateResult["outcome"], number])[] = [
  ["boundaryFall", "a fall of exactly what is allowed", shifted(0, -5, -2, 0), "pass", 5],
  ["boundaryFall", "a fall just beyond it", shifted(0, -5.01, -2, 0), "fail", 5.01],
  ["boundaryFall", "a rise on every judged D", shifted(null, 3, 2, null), "pass", -2],
  ["safeShrink", "exactly the share allowed", shrunk(-15), "pass", 15],
  ["safeShrink", "just more", shrunk(-15.01), "fail", 15.01],
  ["safeShrink", "growth", shrunk(40), "pass", -40],
  ["newSustained", "no point", newSustained(0), "pass", 0],
  ["newSustained", "one point", newSustained(1), "fail", 1],
  ["pinnedSafe", "safe before and now", pinned(true, true), "pass", 0],
  ["pinnedSafe", "safe before, no longer", pinned(true, false), "fail", 1],
  ["startSafe", "both at the very edge", started(0, 0), "pass", 0],
  ["startSafe", "the old one just outside", started(-1e-9, 0.2), "fail", 1],
  ["startSafe", "the new one just outside", started(0.2, -1e-9), "fail", 1],
  ["startSafe", "both outside, one beyond the grid", started(-0.1, null), "fail", 2],
];

describe.each(SIDES)("%s: %s", (id, _, drift, outcome, value) => {
  it(`is a ${outcome}`, () => {
    const result = judged(id, drift);
    expect(result).toMatchObject({ outcome, value, threshold: DEFAULT_GATES[id], skipReason: null });
    expect(outcomeOf([result])).toBe(outcome === "fail" ? "regression" : "pass");
  });
});

describe("the boundary gate", () => {
  const withLines = (...perD: readonly ShiftAtD[]): AxisDrift => ({ ...STILL, shift: { ...STILL.shift, perD } });
  const [beyond, none] = [
    (d: number) => shiftAt(d, null, "beyond the grid"),
    (d: number) => shiftAt(d, null, "opened"),
  ];

  it("looks at every D up to the last of safe ground, safe itself or not, and says how many", () => {
    expect(judged("boundaryFall", shifted(-6, -1, -2, 0))).toMatchObject({
      ...{ outcome: "fail", value: 6, d: 0 },
      judgedLines: { lines: 3, of: 4 },
    });
    const one = judged("boundaryFall", withLines(shiftAt(0, 0), beyond(1), beyond(2), none(3)));
    expect(one).toMatchObject({ outcome: "pass", value: 0, d: 0, judgedLines: { lines: 1, of: 4 } });
    expect(judged("boundaryFall", withLines(shiftAt(0, -6), beyond(1), beyond(2), beyond(3))).outcome).toBe("fail");
  });

  it("is not fooled by a fold beyond all safe ground", () => {
    expect(judged("boundaryFall", shifted(-1, -1, -2, -60))).toMatchObject({ outcome: "pass", value: 2, d: 2 });
  });

  it("counts a boundary that fell into the grid by the least it must have fallen, wherever it did", () => {
    for (const at of [0, 1, 2]) {
      const perD = [0, 1, 2, 3].map((d) => (d === at ? shiftAt(d, -8, "into the grid") : beyond(d)));
      expect(judged("boundaryFall", withLines(...perD))).toMatchObject({ outcome: "fail", value: 8, d: at });
    }
  });

  it("takes one that left the grid upward for a rise", () => {
    const perD = [0, 1, 2, 3].map((d) => shiftAt(d, 12, "out of the grid"));
    const result = judged("boundaryFall", withLines(...perD));
    expect(result).toMatchObject({ outcome: "pass", value: -12, judgedLines: { lines: 3, of: 4 } });
  });

  it("counts a closed range as a fall of all of it, but for a fold beyond all safe ground", () => {
    const closed = (at: number) => [0, 1, 2, 3].map((d) => (d === at ? shiftAt(d, -100, "closed") : shiftAt(d, 0)));
    for (const at of [0, 1, 2]) expect(judged("boundaryFall", withLines(...closed(at))).value).toBe(100);
    expect(judged("boundaryFall", withLines(...closed(3)))).toMatchObject({
      value: 0,
      judgedLines: { lines: 3, of: 4 },
    });
    const bare = {
      ...withLines(...closed(3)),
      safe: { ...STILL.safe, before: 0, points: ["...", "...", "...", "..."] },
    };
    expect(judged("boundaryFall", bare).value).toBe(100);
  });

  it("has lines to judge alone of all gates", () => {
    for (const { gate, judgedLines: lines } of judgeAxis("roll", STILL, DEFAULT_GATES))
      expect([gate, lines]).toEqual([gate, gate === "boundaryFall" ? { lines: 3, of: 4 } : null]);
  });
});

const SKIPPED: readonly (readonly [MapGateId, SkipReason, AxisDrift])[] = [
  ["pinnedSafe", "no pinned tune", { ...STILL, pinned: null }],
  ["pinnedSafe", "pinned tune was not safe before", pinned(false, false)],
  ["newSustained", "no safe ground before", { ...STILL, safe: { ...STILL.safe, before: 0, percent: null } }],
  ["safeShrink", "no safe ground before", shrunk(null)],
  ["boundaryFall", "no boundary in the grid", shifted(null, null, null, null)],
  ["startSafe", "no starting tune before", { ...STILL, start: { ...STILL.start, before: null } }],
];

describe.each(SKIPPED)("%s with %s", (id, reason, drift) => {
  it("is skipped with that reason, and is no regression", () => {
    const result = judged(id, drift);
    expect(result).toMatchObject({ outcome: "skipped", value: null, skipReason: reason });
    expect(outcomeOf([result])).toBe("pass");
  });
});

describe("a gate that is off", () => {
  it.each(MAP_GATES.map(({ id }) => id))("%s judges nothing, however much moved", (id) => {
    const worst = { ...shifted(-90, -90, -90, -90), ...newSustained(9).verdicts, pinned: pinned(true, false).pinned };
    const result = judged(id, worst, { ...DEFAULT_GATES, [id]: null });
    expect(result).toMatchObject({ outcome: "skipped", skipReason: "switched off", threshold: null });
  });

  it("leaves the others standing", () => {
    const gates = { ...DEFAULT_GATES, boundaryFall: null };
    expect(
      outcomeOf(judgeAxis("roll", { ...shifted(-9, -9, -9, -9), pinned: pinned(true, false).pinned }, gates)),
    ).toBe("regression");
  });
});

describe("a starting tune that is gone", () => {
  it("counts as outside", () => {
    const drift = { ...STILL, start: { ...STILL.start, after: null } };
    expect(judged("startSafe", drift)).toMatchObject({ outcome: "fail", value: 1 });
  });
});

describe("gates that cannot be judged, under skipped: fail", () => {
  const nothing: AxisDrift = {
    ...STILL,
    pinned: null,
    shift: { perD: [shiftAt(0, null)], lowest: null, highest: null },
  };

  it("fail, with their reason and no value", () => {
    const results = judgeAxis("roll", nothing, DEFAULT_GATES, { skippedFail: true });
    expect(results.filter(({ outcome }) => outcome === "fail")).toMatchObject([
      { gate: "pinnedSafe", value: null, skipReason: "no pinned tune" },
      { gate: "boundaryFall", value: null, skipReason: "no boundary in the grid" },
    ]);
    expect(outcomeOf(results)).toBe("regression");
  });

  it("pass where the sweep does not ask for that", () => {
    expect(outcomeOf(judgeAxis("roll", nothing, DEFAULT_GATES))).toBe("pass");
  });

  it("do not fail where they are switched off", () => {
    const off: AllGates = { ...DEFAULT_GATES, pinnedSafe: null, boundaryFall: null };
    const results = judgeAxis("roll", nothing, off, { skippedFail: true });
    expect(results.filter(({ outcome }) => outcome === "skipped").map(({ gate }) => gate)).toEqual([
      "pinnedSafe",
      "boundaryFall",
    ]);
    expect(outcomeOf(results)).toBe("pass");
  });
});
