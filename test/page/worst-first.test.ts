// The trials of a point beside what the map says of it: what is listed first must be what the map found.
import { beforeAll, describe, expect, it } from "vitest";
import { ABSENCES, MEASURE_IDS, type MeasureId } from "../../src/base/measures.js";
import { loadVectorKernel } from "../../src/kernel/load-vector.js";
import type { Yielding } from "../../src/page/level-map.js";
import { type PageMap, pageMapOf } from "../../src/page/page-map.js";
import { type Simulator, simulatorOf } from "../../src/page/simulator.js";
import { decidingVariant, decisionOn } from "../../src/page/trial/decision.js";
import { type PointTrial, pointTrials } from "../../src/page/trial/point-trials.js";
import type { Trial } from "../../src/page/trial/trial.js";
import { decisionWords, endWords, tallyWords, worstWords } from "../../src/page/trial/trial-words.js";
import { doesNotDieOut, worstFirst } from "../../src/page/trial/worst-first.js";
import { pageData } from "../../src/page-data/data.js";
import type { Variant } from "../../src/plan/plan.js";
import { smallMap } from "../fixtures/report-map.js";

const patience: Yielding = { pause: async () => {}, onProgress: () => {}, isCurrent: () => true };

describe("every point of a map", () => {
  let pageMap: PageMap;
  let simulator: Simulator;
  beforeAll(async () => {
    pageMap = pageMapOf(pageData((await smallMap()).map));
    simulator = simulatorOf(pageMap.simulation as NonNullable<PageMap["simulation"]>, loadVectorKernel);
  });

  it("opens with the trial that decided it, which shows what the map calls it", async () => {
    const view = { shown: "verdict", axes: pageMap.axes, level: null } as const;
    const seen = new Set<string>();
    for (const axis of ["roll", "pitch"] as const) {
      const { grid } = pageMap.axes[axis];
      const si = simulator.grid[axis];
      for (const [i, d] of grid.d.entries())
        for (const [j, p] of grid.p.entries()) {
          const decision = decisionOn(pageMap, axis, p, d, view);
          if (decision.kind !== "point") throw new Error("a point of the grid");
          const decider = decidingVariant(decision);
          const gains = { axis, p: si.p[j] as number, d: si.d[i] as number };
          const trials = (await pointTrials(simulator, gains, patience)) as readonly PointTrial[];
          const ranked = worstFirst(trials, pageMap.limits, decider);
          const { verdict } = decision;
          seen.add(verdict);
          expect(ranked[0]?.variant.index).toBe(decider >= 0 ? decider : ranked[0]?.variant.index);
          const first = (ranked[0] as (typeof ranked)[number]).worst;
          const byTheory = decision.decidedBy < -1;
          if (verdict === "sustained" && !byTheory) expect(["sustained", "lost"]).toContain(first.kind);
          else if (verdict === "clean") expect(first.kind).toBe("within");
          else if (!byTheory) expect(first.kind).toBe("beyond");
          if (verdict === "hot") expect("measure" in first && first.measure.argues).toBe("hot");
          // Whatever is graver than the verdict would have been the verdict.
          expect(ranked.some(doesNotDieOut)).toBe(verdict === "sustained" && !byTheory);
          expect(decisionWords(pageMap, decision, decider)).toMatch(
            verdict === "clean" ? /no trial of it passes a limit/ : byTheory ? /theory/ : /this trial decided it/,
          );
        }
    }
    expect([...seen].sort()).toEqual(["clean", "hot", "loose", "ringing", "sustained"]);
  });

  it("is not simulated to the end when another is wanted", async () => {
    let pauses = 0;
    const impatient = { ...patience, pause: async () => void pauses++, isCurrent: () => pauses < 1 };
    expect(await pointTrials(simulator, { axis: "roll", p: 0.1, d: 0 }, impatient)).toBe(null);
  });

  it("says so of gains that are none of its points", () => {
    const view = { shown: "verdict", axes: pageMap.axes, level: null } as const;
    const decision = decisionOn(pageMap, "roll", 11.1, 0.3, view);
    expect(decision).toEqual({ kind: "between" });
    expect(decidingVariant(decision)).toBe(-1);
    expect(decisionWords(pageMap, decision, 0)).toMatch(/between the points of the map/);
  });
});

const LIMITS = Object.fromEntries(
  MEASURE_IDS.map((id) => [id, { overshoot: 15, heat: 1.5, settling: 250 }[id as string] ?? null]),
) as PageMap["limits"];
const NOT_SHOWN = ABSENCES.indexOf("this script does not show it");

function trial(outcome: Trial["outcome"], values: Partial<Record<MeasureId, number | string>> = {}): Trial {
  const entry = (id: MeasureId) => values[id];
  const per = <T>(of: (id: MeasureId) => T) =>
    Object.fromEntries(MEASURE_IDS.map((id) => [id, of(id)])) as Record<MeasureId, T>;
  return {
    outcome,
    measures: per((id) => (typeof entry(id) === "number" ? (entry(id) as number) : null)),
    absent: per((id) => {
      const value = entry(id);
      if (typeof value === "number") return 0;
      return value === undefined ? NOT_SHOWN : (ABSENCES as readonly string[]).indexOf(value);
    }),
  };
}

const MADE: Readonly<Record<string, Trial>> = {
  "at rest": trial("at rest"),
  "far inside": trial("dies out", { overshoot: 3 }),
  "near its limit": trial("dies out", { overshoot: 14 }),
  "not judged": trial("dies out", { ringFrequency: 9 }),
  "a little over": trial("dies out", { overshoot: 16 }),
  "never settles": trial("dies out", { settling: "never settles in the window" }),
  "far over": trial("dies out", { overshoot: 45 }),
  hot: trial("dies out", { heat: 1.6 }),
  "small swing": trial("sustained", { oscillation: 5 }),
  "large swing": trial("sustained", { oscillation: 200 }),
  lost: trial("diverged"),
};
const trials: readonly PointTrial[] = Object.values(MADE).map((one, index) => ({
  variant: { index } as Variant,
  trial: one,
}));
const orderBy = (decider: number) =>
  worstFirst(trials, LIMITS, decider).map(({ variant }) => Object.keys(MADE)[variant.index]);

describe("the order of trials", () => {
  it("goes from what is lost to what never moved", () => {
    expect(orderBy(-1)).toEqual([
      "lost",
      "large swing",
      "small swing",
      "hot",
      "far over",
      "never settles",
      "a little over",
      "near its limit",
      "far inside",
      "not judged",
      "at rest",
    ]);
  });

  it("has the trial that decided the point first", () => {
    expect(orderBy(4).slice(0, 3)).toEqual(["a little over", "lost", "large swing"]);
  });

  it("says what is worst about each", () => {
    const said = worstFirst(trials, LIMITS, -1).map((one) => worstWords(one, LIMITS).replaceAll("\u00a0", " "));
    expect(said).toEqual([
      "the simulated craft is lost",
      "does not die out",
      "does not die out",
      "motor heating 1.6, over 1.5",
      "bounce-back 45 %, over 15 %",
      "settling time: never settles in the window, limit 250 ms",
      "bounce-back 16 %, over 15 %",
      "bounce-back 14 %, limit 15 %",
      "bounce-back 3 %, limit 15 %",
      "dies out; nothing else in it is judged",
      "does not move this axis",
    ]);
    expect(tallyWords(worstFirst(trials, LIMITS, -1))).toBe("11 trials: 3 do not die out, 4 more pass a limit.");
    const calm = worstFirst(trials.slice(0, 3), LIMITS, -1);
    expect(tallyWords(calm)).toBe("3 trials; none passes a limit, the nearest to one comes first.");
  });
});

describe("how a trial ended", () => {
  it.each([
    ["sustained", { oscillation: 245, growth: 0.1 }, /does not die out: it swings \u00b1245 °\/s .*Never fly here/],
    ["diverged", {}, /lost\. Never fly here/],
    ["at rest", {}, /Nothing moves this axis/],
    ["dies out", { oscillation: 12, growth: -2 }, /^The oscillation dies out\.$/],
    ["dies out", { oscillation: 0.4, growth: "no swing to measure" }, /^It is calm as the trial ends\.$/],
    // Under "growth 0.768, oscillation at the end 245 °/s" stood that it dies out.
    [
      "dies out",
      { oscillation: 245, growth: "too few swings to count" },
      /still swings \u00b1245 °\/s .*does not show that it dies out/,
    ],
  ] as const)("%s %j", (outcome, values, expected) => {
    expect(endWords(trial(outcome, values)).replaceAll("\u00a0", " ")).toMatch(expected);
  });
});
