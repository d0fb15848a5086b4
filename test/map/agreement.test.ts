// Theory compared with trials, end by end: what agrees, what differs, what only one side finds.
import { describe, expect, it } from "vitest";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { agreementOf, isPlainNudge, stepEffect } from "../../src/map/agreement.js";
import type { Interval, VariantBoundary } from "../../src/map/boundary.js";
import type { Plan } from "../../src/plan/plan.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { stableIntervals, ultimateGain } from "../../src/theory/boundary.js";
import { steppedPlant } from "../../src/theory/stepped.js";
import { FULL, nudge, planOf, stretchedX, TIRED } from "../fixtures/airframe.js";
import { bothAxes } from "../fixtures/both-axes.js";

const steps = (from: number, to: number, count: number, unit: number) =>
  Array.from({ length: count }, (_, k) => (from + ((to - from) * k) / (count - 1)) * unit);

const bare = planOf(stretchedX, nudge(1), [0.5], [FULL, TIRED]);
const grid = { p: steps(4, 64, 13, P_UNIT), d: steps(0, 4, 5, D_UNIT) };
const plan: Plan = { ...bare, sweep: { ...bare.sweep, grid: bothAxes(grid) } };
const variants = plan.variants.filter(({ axis }) => axis === "roll");
const holding = { ...plan.holding, yaw: stretchedX.controller.yaw };
const { i } = stretchedX.controller.roll;
const range = { from: grid.p[0], to: grid.p[grid.p.length - 1] };

const loops = (period?: typeof steppedPlant) =>
  variants.map((variant) => ({
    variant,
    pieces: axisPieces(plan.conditions[variant.condition].craft, variant.trim, "roll", holding, period),
  }));
const stepped = loops(steppedPlant);

/** What trials would find if they agreed with theory, every end moved by a factor. */
function simulated(
  factor = 1,
  bend: (stable: Interval[], row: number) => Interval[] = (stable) => stable,
): VariantBoundary[] {
  return stepped.map(({ variant, pieces }) => ({
    variant: variant.index,
    perD: grid.d.map((d, row) => {
      const stable = stableIntervals(pieces, d, i, range).map(({ from, to }): Interval => {
        const [fromOpen, toOpen] = [from === range.from, to === range.to];
        return {
          from: fromOpen ? from : from * factor,
          to: toOpen ? to : to * factor,
          fromOpen,
          toOpen,
          width: [0, 0],
        };
      });
      return bend(stable, row);
    }),
  }));
}

describe("trials that agree", () => {
  it("differ by nothing, at every end of every throttle and pack", () => {
    const found = agreementOf(plan, stepped, simulated(), 0);
    expect(found?.ends).toBe(6);
    expect(found?.worst?.difference).toBeCloseTo(0, 9);
    expect(found?.disagreements).toEqual([]);
    expect(found?.script).toBe("nudge");
  });

  it("follow the trials' own rule: theory's ends move to where the growth is the trials' limit", () => {
    const decay = -0.5; // 1/s
    const [{ pieces }] = stepped;
    const [{ p, perGrowth }] = ultimateGain(pieces, grid.d[0], i, range);
    const one = simulated()
      .slice(0, 1)
      .map(({ variant, perD }) => ({ variant, perD: perD.map((at, row) => (row === 0 ? at : [])) }));
    const found = agreementOf(plan, stepped, one, decay);
    expect(found?.ends).toBe(1);
    expect(found?.worst?.theory).toBeCloseTo((p + perGrowth * decay) / P_UNIT, 9);
    expect(found?.worst?.difference).toBeGreaterThan(0.1);
  });
});

describe("trials that do not", () => {
  it("are listed beyond half a per cent, with place, sign and size", () => {
    const [near, far] = [
      agreementOf(plan, stepped, simulated(1.004), 0),
      agreementOf(plan, stepped, simulated(0.99), 0),
    ];
    expect(near?.disagreements).toEqual([]);
    expect(near?.median).toBeCloseTo(0.4, 9);
    expect(far?.disagreements.length).toBe(far?.ends);
    for (const { difference, theory, simulated: hertz } of far?.disagreements ?? []) {
      expect(difference).toBeCloseTo(-1, 9);
      expect((hertz ?? 0) / (theory ?? 0)).toBeCloseTo(0.99, 9);
    }
  });

  it("are listed where no trial shows theory's end", () => {
    const open = (stable: Interval[]) => stable.map((one): Interval => ({ ...one, to: range.to, toOpen: true }));
    const found = agreementOf(
      plan,
      stepped,
      simulated(1, (stable, row) => (row === 0 ? open(stable) : stable)),
      0,
    );
    expect(found?.disagreements.length).toBeGreaterThan(0);
    for (const end of found?.disagreements ?? [])
      expect(end).toMatchObject({ d: 0, simulated: null, difference: null });
  });

  it("are listed where trials see an end that theory does not know", () => {
    const early: Interval = { from: range.from, to: 30 * P_UNIT, fromOpen: true, toOpen: false, width: [0, 0] };
    const calm = (stable: readonly Interval[]) => stable.length === 1 && stable[0].fromOpen && stable[0].toOpen;
    const found = agreementOf(
      plan,
      stepped,
      simulated(1, (stable) => (calm(stable) ? [early] : stable)),
      0,
    );
    // One of theory's ends lies just above the swept range: that D is compared with it, half as far.
    expect(found?.disagreements.filter(({ theory }) => theory === null).length).toBeGreaterThan(0);
    for (const { theory, simulated: hertz, difference } of found?.disagreements ?? []) {
      expect(hertz).toBeCloseTo(30, 9);
      expect(theory === null ? difference : Math.abs(difference ?? 0) > 50).toBe(theory === null ? null : true);
    }
  });
});

describe("what is compared", () => {
  it("nothing where no plain nudge was simulated", () => {
    expect(agreementOf(plan, stepped, [], 0)).toBe(null);
  });

  it.each([
    ["noise", { noise: true }],
    ["another kind", { kind: "stop" as const }],
    ["a throttle that moves", { throttle: [[0, { kind: "level" as const, plus: 0.1 }]] as const }],
    ["a climb", { climb: [[0, { kind: "speed" as const, speed: 1 }]] as const }],
    ["a descent in units of vh", { descent: [[0, { kind: "ratio" as const, ratio: 1 }]] as const }],
    ["a turn", { yaw: [[0, { kind: "rate" as const, rate: 1 }]] as const }],
    ["a gust", { gusts: [{ kind: "pulse" as const, at: 0, peak: 1, length: 1, speed: 1 }] }],
  ])("no nudge with %s", (_, change) => {
    expect(isPlainNudge(nudge(1))).toBe(true);
    expect(isPlainNudge({ ...nudge(1), climb: [[0, { kind: "speed", speed: 0 }]] })).toBe(true);
    expect(isPlainNudge({ ...nudge(1), ...change })).toBe(false);
  });

  it("the time step's share: the same ends, stepped and exact", () => {
    const effect = stepEffect(plan, loops(), stepped);
    expect(Math.abs(effect?.difference ?? 0)).toBeGreaterThan(0.01);
    expect(Math.abs(effect?.difference ?? 100)).toBeLessThan(5);
    expect(stepEffect(plan, stepped, stepped)?.difference).toBeCloseTo(0, 9);
  });
});
