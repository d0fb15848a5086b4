import { describe, expect, it } from "vitest";
import { MEASURES, measureOf, VERDICTS } from "../../src/base/measures.js";
import { isClean, judge as judgeAt, type Limits, slack } from "../../src/map/verdict.js";
import type { WorstPoint } from "../../src/map/worst.js";
import { decider, defaultLimits, NOWHERE, noLimits, worstOf } from "./tables.js";

const judged = MEASURES.filter(({ argues, limit }) => argues !== null && limit !== null);
const bit = (verdict: (typeof VERDICTS)[number]) => 1 << VERDICTS.indexOf(verdict);
/** Where nothing is known of the gains around the point, each measure argues for what it mostly means. */
const judge = (worst: WorstPoint, sustainedBy: number, limits: Limits) => judgeAt(worst, sustainedBy, limits, NOWHERE);

describe("one measure at its limit", () => {
  it("the catalogue has limits to hold", () => {
    expect(judged.map(({ id }) => id)).toEqual([
      "overshoot",
      "settling",
      "rebounds",
      "rise",
      "kick",
      "wobbleAngle",
      "heat",
      "commandNoise",
    ]);
  });

  it.each(judged)("$id: at the limit clean, just beyond it $argues", ({ id, limit, argues, better }) => {
    const beyond = (limit as number) * (better === "low" ? 1 + 1e-9 : 1 - 1e-9);
    expect(judge(worstOf({ [id]: limit as number }), -1, defaultLimits)).toEqual({
      verdict: "clean",
      reasons: 0,
      decidedBy: -1,
    });
    expect(judge(worstOf({ [id]: beyond }), -1, defaultLimits)).toEqual({
      verdict: argues,
      reasons: bit(argues as "hot"),
      decidedBy: decider(id),
    });
  });

  it.each(judged)("$id: nothing is beyond no limit", ({ id }) => {
    expect(
      judge(worstOf({ [id]: 1e9 }), -1, { ...defaultLimits, [id]: null }).reasons & bit(measureOf(id).argues as "hot"),
    ).toBe(0);
  });

  it("a measure that argues for nothing decides nothing, whatever limit is set on it", () => {
    const all = Object.fromEntries(MEASURES.map(({ id }) => [id, 1])) as typeof defaultLimits;
    expect(
      judge(worstOf({ growth: 100, oscillation: 100, limited: 100, recovery: 100, damping: 0 }), -1, all).verdict,
    ).toBe("clean");
  });
});

describe("clean", () => {
  it("is what the judge calls clean, and nothing else", () => {
    const shown = [
      {},
      { overshoot: 15 },
      { overshoot: 16 },
      { heat: 2 },
      { settling: "never settles in the window" as const },
    ];
    for (const sustainedBy of [-1, 0])
      for (const worst of shown.map(worstOf))
        expect(isClean(worst, sustainedBy, defaultLimits)).toBe(
          judge(worst, sustainedBy, defaultLimits).verdict === "clean",
        );
  });
});

describe("several reasons", () => {
  const loose = { rise: 200 };
  const ringing = { overshoot: 40 };
  const hot = { heat: 9 };

  it("the most severe is the verdict, all are recorded", () => {
    expect(VERDICTS).toEqual(["sustained", "hot", "ringing", "loose", "clean"]);
    expect(judge(worstOf({ ...loose, ...ringing, ...hot }), 7, defaultLimits)).toEqual({
      verdict: "sustained",
      reasons: 0b1111,
      decidedBy: 7,
    });
    expect(judge(worstOf({ ...loose, ...ringing, ...hot }), -1, defaultLimits)).toEqual({
      verdict: "hot",
      reasons: 0b1110,
      decidedBy: decider("heat"),
    });
    expect(judge(worstOf({ ...loose, ...ringing }), -1, defaultLimits)).toEqual({
      verdict: "ringing",
      reasons: 0b1100,
      decidedBy: decider("overshoot"),
    });
    expect(judge(worstOf(loose), -1, defaultLimits)).toEqual({
      verdict: "loose",
      reasons: 0b1000,
      decidedBy: decider("rise"),
    });
    expect(judge(worstOf({}), 0, defaultLimits)).toEqual({ verdict: "sustained", reasons: 1, decidedBy: 0 });
  });

  it("of two for one verdict, the one furthest beyond its limit decides", () => {
    expect(judge(worstOf({ overshoot: 18, rebounds: 9 }), -1, defaultLimits).decidedBy).toBe(decider("rebounds"));
    expect(judge(worstOf({ overshoot: 90, rebounds: 3 }), -1, defaultLimits).decidedBy).toBe(decider("overshoot"));
  });
});

describe("room to a limit", () => {
  const worst = worstOf({
    overshoot: 12,
    damping: 0.3,
    settling: "never settles in the window",
    rise: "never reaches the level",
    ringFrequency: 9,
    kick: "no swing to measure",
  });
  const of = (id: keyof typeof worst, limit: number | null) => slack(measureOf(id), worst[id], limit);

  it("is a share of the limit, signed by the better direction", () => {
    expect(of("overshoot", 15)).toBeCloseTo(0.2, 12);
    expect(of("overshoot", 10)).toBeCloseTo(-0.2, 12);
    expect(of("damping", 0.2)).toBeCloseTo(0.5, 12);
    expect(of("damping", 0.4)).toBeCloseTo(-0.25, 12);
    expect(of("overshoot", 12)).toBe(0);
    expect(of("overshoot", 0)).toBe(-12); // a limit of 0 has no share
  });

  it("is -1 where a trial failed at it, and nothing where there is nothing to hold", () => {
    expect(of("settling", 250)).toBe(-1);
    expect(of("rise", 120)).toBe(-1);
    expect(of("settling", null)).toBe(null);
    expect(of("kick", 8)).toBe(null);
    expect(of("wobbleAngle", 4)).toBe(null);
    expect(of("ringFrequency", 5)).toBe(null); // neither way is better
  });

  it("a trial that failed at a measure is beyond its limit, one that does not show it is not", () => {
    expect(judge(worstOf({ rise: "never reaches the level" }), -1, defaultLimits).verdict).toBe("loose");
    expect(judge(worstOf({ rise: "this script does not show it" }), -1, defaultLimits).verdict).toBe("clean");
    expect(judge(worstOf({ rise: "never reaches the level" }), -1, noLimits).verdict).toBe("clean");
  });
});
