// A reason that is a margin names the throttle and the pack at which the map's own margins are least.
import { beforeAll, describe, expect, it } from "vitest";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { marginCase } from "../../src/compare/margin-case.js";
import { nextTune } from "../../src/compare/next-tune.js";
import type { StabilityMap, StartingTune } from "../../src/map/format.js";
import { axisTheory } from "../../src/map/margins.js";
import type { Plan } from "../../src/plan/plan.js";
import { nextWords } from "../../src/words/next-words.js";
import { smallMap } from "../fixtures/report-map.js";
import { driftOf } from "./maps.js";

let plan: Plan;
let map: StabilityMap;
beforeAll(async () => {
  const small = await smallMap();
  plan = small.plan;
  map = JSON.parse(JSON.stringify(small.map)) as StabilityMap;
}, 60_000);

/** The throttle and pack of what decides a margin of the map, by the theory that judged it. */
function decidedBy(axis: "roll" | "pitch", { p, d }: { p: number; d: number }, margin: "gainBy" | "phaseBy") {
  const theory = axisTheory(
    plan,
    axis,
    plan.variants.filter((one) => one.axis === axis),
  );
  const variant = plan.variants[theory.margins(p * P_UNIT, d * D_UNIT)[margin]];
  return [variant?.throttle, plan.conditions[variant?.condition ?? -1]?.condition.name];
}

describe("the case of a margin", () => {
  it("is the one that decided the map's own margin, at any tune of the grid", () => {
    for (const axis of ["roll", "pitch"] as const) {
      const { p, d } = map.axes[axis].grid;
      for (const gains of [0.2, 0.5, 0.9].map((share) => ({
        p: p[Math.floor(share * (p.length - 1))] ?? 0,
        d: d[Math.floor((1 - share) * (d.length - 1))] ?? 0,
      }))) {
        const [throttle = 0, condition] = decidedBy(axis, gains, "phaseBy");
        const found = marginCase(map, axis, gains, "phase");
        expect(found).toMatchObject({ script: "theory", rate: 0, condition });
        expect(found?.throttle).toBeCloseTo(100 * Number(throttle), 6);
      }
    }
  });

  it("is not there where the map's model is none that theory can ask", () => {
    expect(marginCase({ ...map, model: {} }, "roll", { p: 10, d: 1 }, "phase")).toBe(null);
  });
});

describe("a start of before that is short of a margin now", () => {
  it("says at which throttle and pack", () => {
    const start = map.axes.roll.start as StartingTune;
    const { factor, limit } = start.room.pUp;
    expect(limit).toMatch(/^(gain|phase) margin$/);
    const before = { ...start, p: 1.02 * start.p * (factor ?? 1) };
    const base = { ...map, axes: { ...map.axes, roll: { ...map.axes.roll, start: before } } };
    const { reason } = nextTune("roll", base, map);
    expect(reason?.title).toBe(limit);
    const [throttle = 0, condition] = decidedBy("roll", before, limit === "gain margin" ? "gainBy" : "phaseBy");
    expect(reason?.by).toMatchObject({ condition });
    expect(reason?.by?.throttle).toBeCloseTo(100 * Number(throttle), 6);
    expect(nextWords(driftOf(base, map), "roll", map.variants)?.reason).toMatch(
      new RegExp(`^(Gain|Phase) margin .*, at least .* \\(theory at .* throttle, ${condition}\\)$`),
    );
  });
});
