// Where the margin ends as P rises, on a loop whose margins are known: a gain margin of 20 log10(40 / P) dB, a phase margin of 80 - 2 P deg.
import { describe, expect, it } from "vitest";
import type { AxisMap, StartingTune } from "../../src/map/format.js";
import { marginEndOf, marginEnds } from "../../src/map/margin-end.js";

const P = Array.from({ length: 40 }, (_, j) => 1 + j);
const axis = (change: object = {}, start: object | null = null): AxisMap =>
  ({
    grid: { p: P, d: [0, 1, 2] },
    verdict: [0, 1, 2].map(() => P.map((p) => (p >= 40 ? "sustained" : "clean"))),
    margins: {
      gainUp: [0, 1, 2].map(() => P.map((p) => 20 * Math.log10(40 / p))),
      phase: [0, 1, 2].map(() => P.map((p) => 80 - 2 * p)),
    },
    start: start as StartingTune | null,
    ...change,
  }) as unknown as AxisMap;
const startAt = (p: number, d: number, limit: string, factor: number | null) => ({
  p,
  d,
  room: { pUp: { limit, factor } },
});

describe("the end of the margin", () => {
  it("lies where the first of the two wanted margins is used up", () => {
    for (const { p, by } of marginEnds(axis(), { gain: 6, phase: 45 })) {
      expect(p).toBeCloseTo(17.5, 9); // 80 - 2 P = 45
      expect(by).toBe("phase");
    }
    for (const { p, by } of marginEnds(axis(), { gain: 6, phase: 20 })) {
      expect(p).toBeCloseTo(40 / 10 ** (6 / 20), 1); // straight lines between whole P
      expect(by).toBe("gain");
    }
  });

  it("is none where no P keeps the margins, or where none ends them in the swept range", () => {
    expect(marginEnds(axis(), { gain: 60, phase: 45 })).toEqual([]);
    const endless = { gainUp: [0, 1, 2].map(() => P.map(() => null)), phase: [0, 1, 2].map(() => P.map(() => 60)) };
    const verdict = [0, 1, 2].map(() => P.map(() => "clean"));
    expect(marginEnds(axis({ margins: endless, verdict }), { gain: 6, phase: 45 })).toEqual([]);
  });

  it("ends at sustained ground at the latest, whatever the linear margins say", () => {
    const verdict = [0, 1, 2].map(() => P.map((p) => (p > 10 ? "sustained" : "clean")));
    for (const { p } of marginEnds(axis({ verdict }), { gain: 6, phase: 45 })) expect(p).toBe(10.5);
  });

  it("is what the starting tune's own room says where that is a margin, else the grid's at its D", () => {
    const wanted = { gain: 6, phase: 45 };
    expect(marginEndOf(axis({}, startAt(10, 0.5, "phase margin", 1.8)), wanted)).toEqual({
      d: 0.5,
      p: 18,
      by: "phase",
    });
    expect(marginEndOf(axis({}, startAt(10, 0.5, "Motor heating", 1.2)), wanted)?.p).toBeCloseTo(17.5, 9);
    expect(marginEndOf(axis(), wanted)?.d).toBe(0);
  });
});
