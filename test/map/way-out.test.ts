import { describe, expect, it } from "vitest";
import { judge } from "../../src/map/verdict.js";
import { type Surroundings, surroundingsOn } from "../../src/map/way-out.js";
import { defaultLimits, NOWHERE, worstOf } from "./tables.js";

const NEVER = "never settles in the window";
type Shown = Parameters<typeof worstOf>[0];

/** Verdict at a bounce-back of 40 %, by the bounce-backs met on the way; null: an oscillation that does not die out. */
const verdictAmid = (around: Partial<Record<keyof Surroundings, readonly (number | null)[]>>) => {
  const met = Object.entries(around).map(([way, values]) => [
    way,
    values.map((value) => (value === null ? null : worstOf({ overshoot: value }))),
  ]);
  return judge(worstOf({ overshoot: 40 }), -1, defaultLimits, { ...NOWHERE, ...Object.fromEntries(met) }).verdict;
};

// Soft and slow is low P, sharp and quick is high P (common practice, no source).
describe("which way leads out", () => {
  it.each([
    ["more P helps, less does not", { moreP: [30], lessP: [50] }, "loose"],
    ["less P helps, more does not", { moreP: [50], lessP: [30] }, "ringing"],
    ["the grid ends below, more P helps", { moreP: [30] }, "loose"],
    ["the grid ends below, more P hurts", { moreP: [50] }, "ringing"],
    ["the grid ends above, less P hurts", { lessP: [50] }, "loose"],
    ["the grid ends above, less P helps", { lessP: [30] }, "ringing"],
    ["more P does not die out", { moreP: [null, 10], lessP: [39.9] }, "ringing"],
    ["less P does not die out", { moreP: [30], lessP: [null] }, "loose"],
    ["flat until more P helps", { moreP: [40.5, 39.5, 30], lessP: [40.1] }, "loose"],
    ["flat until more P hurts", { moreP: [40.5, 39.5, 50], lessP: [40.1] }, "ringing"],
    ["a slow slope adds up", { moreP: [39.6, 39.3, 39], lessP: [] }, "loose"],
    ["P either way hurts, more D helps", { moreP: [50], lessP: [50], moreD: [30] }, "ringing"],
    ["P either way hurts, more D does as well", { moreP: [50], lessP: [50], moreD: [50] }, "ringing"],
    ["nothing is known", {}, "ringing"],
  ] as const)("%s", (_, around, verdict) => {
    expect(verdictAmid(around)).toBe(verdict);
  });

  it.each([
    ["settling", 300, 200],
    ["settling", NEVER, 600],
    ["rebounds", 3, 2],
    ["kick", 3, 2.5],
    ["wobbleAngle", 3, 2.5],
  ] as const)("asks for %s as well, %s against %s", (id, here, better) => {
    const [bad, good] = [worstOf({ [id]: here } as Shown), worstOf({ [id]: better })];
    expect(judge(bad, -1, defaultLimits, { ...NOWHERE, moreP: [bad, good] }).verdict).toBe("loose");
    expect(judge(bad, -1, defaultLimits, { ...NOWHERE, lessP: [bad, good] }).verdict).toBe("ringing");
  });

  it("a trial that fails at the measure is worse than any value, and better than no end of swinging", () => {
    const [failed, late] = [worstOf({ settling: NEVER }), worstOf({ settling: 900 })];
    expect(judge(late, -1, defaultLimits, { ...NOWHERE, moreP: [failed] }).verdict).toBe("ringing");
    expect(judge(failed, -1, defaultLimits, { ...NOWHERE, moreP: [null], lessP: [failed] }).verdict).toBe("ringing");
    expect(judge(failed, -1, defaultLimits, { ...NOWHERE, moreP: [failed], lessP: [null] }).verdict).toBe("loose");
  });

  it("a trial that failed at one measure goes with those that have a value", () => {
    const here = worstOf({ settling: NEVER, wobbleAngle: 5 });
    const around = { ...NOWHERE, moreP: [worstOf({ settling: NEVER, wobbleAngle: 2.3 }), null] };
    expect(judge(here, -1, defaultLimits, around)).toMatchObject({ verdict: "loose", reasons: 0b1000 });
    expect(judge(worstOf({ settling: NEVER }), -1, defaultLimits, around).verdict).toBe("ringing");
  });

  it("a point that does not show the measure is passed over", () => {
    const around = { ...NOWHERE, moreP: [worstOf({}), worstOf({ overshoot: 30 })] };
    expect(judge(worstOf({ overshoot: 40 }), -1, defaultLimits, around).verdict).toBe("loose");
  });

  it("a slow stop is loose whatever more P does", () => {
    for (const rise of [130, "never reaches the level"] as const) {
      const around = { ...NOWHERE, moreP: [worstOf({ rise: 150 }), null], lessP: [worstOf({ rise: 110 })] };
      expect(judge(worstOf({ rise }), -1, defaultLimits, around).verdict).toBe("loose");
    }
  });

  it("heat needs no neighbours: it is D", () => {
    const around = { ...NOWHERE, moreP: [worstOf({ heat: 1 })] };
    expect(judge(worstOf({ heat: 2 }), -1, defaultLimits, around).verdict).toBe("hot");
  });

  it("measures may disagree at a point: both reasons stay", () => {
    const around = { ...NOWHERE, moreP: [worstOf({ overshoot: 50, wobbleAngle: 2 })] };
    const { verdict, reasons } = judge(worstOf({ overshoot: 40, wobbleAngle: 3 }), -1, defaultLimits, around);
    expect([verdict, reasons]).toEqual(["ringing", 0b1100]);
  });
});

it("what lies around a point of a grid, the nearest first", () => {
  const worst = Array.from({ length: 12 }, (_, i) => worstOf({ overshoot: i }));
  const around = surroundingsOn(
    4,
    worst,
    worst.map((_, i) => (i === 7 ? 3 : -1)),
  )(5);
  const ways = Object.entries(around) as [string, Surroundings["moreP"]][];
  const values = ways.map(([way, met]) => [way, met.map((point) => point?.overshoot.value ?? null)]);
  expect(Object.fromEntries(values)).toEqual({ moreP: [6, null], lessP: [4], moreD: [9], lessD: [1] });
});
