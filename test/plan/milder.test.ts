// A gentler manoeuvre against the plan of a sweep that asks for just that: its own planning, its own scripts.
import { describe, expect, it } from "vitest";
import { at } from "../../src/base/at.js";
import { planFor } from "../../src/flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../../src/flow/read.js";
import { scheduleOf } from "../../src/kernel/schedule.js";
import { milderVariant } from "../../src/plan/milder.js";
import type { Plan, Variant } from "../../src/plan/plan.js";
import type { Script } from "../../src/sweep/sweep.js";

const sweep = readSweep("test/fixtures/report.yaml");
const model = readAirframe(modelOf(sweep));
const plan = planFor(model, sweep);

const variantOf = ({ variants }: Plan, script: string): Variant =>
  variants.find((one) => one.script.name === script && one.condition === 0) as Variant;

/** The plan of the same sweep with scripts and rates of other sizes. */
function planWith(change: (script: Script) => Script, rate: number): Plan {
  const scripts = sweep.value.scripts.map((use) => ({
    ...use,
    script: change(use.script),
    rates: use.rates.map((one) => (one === 0 ? 0 : rate)),
  }));
  return planFor(model, { ...sweep, value: { ...sweep.value, scripts } });
}

const lines = (its: Plan, variant: Variant) => {
  const { throttle, command, yaw, climb, descent } = scheduleOf(its, variant);
  return { throttle, command, yaw, climb, descent };
};

describe("a milder variant", () => {
  it("commands what a sweep of the lower rate commands, to the nearest 10 deg/s", () => {
    const slower = planWith((script) => script, (200 / 180) * Math.PI);
    const stop = variantOf(plan, "roll-stop");
    expect(lines(plan, milderVariant(plan, stop, 0.4))).toEqual(lines(slower, variantOf(slower, "roll-stop")));
    expect(lines(plan, milderVariant(plan, stop, 0.406))).toEqual(lines(slower, variantOf(slower, "roll-stop")));
  });

  it("sinks at a share of the speed", () => {
    const half = planWith(
      ({ descent, ...script }) => ({
        ...script,
        descent: descent.map(([t, v]) => [t, v.kind === "ratio" ? { ...v, ratio: v.ratio / 2 } : v] as const),
      }),
      (150 / 180) * Math.PI,
    );
    const wash = variantOf(plan, "wash-turn");
    expect(lines(plan, milderVariant(plan, wash, 0.5))).toEqual(lines(half, variantOf(half, "wash-turn")));
  });

  it("moves the throttle off its level by a share, and starts in trim there", () => {
    const punch = variantOf(plan, "punch-out");
    const { script } = punch;
    const level = punch.throttle;
    const { throttle } = scheduleOf(plan, punch);
    const milder = scheduleOf(plan, milderVariant(plan, punch, 0.5)).throttle;
    for (const [k, duty] of throttle.entries()) expect(at(milder, k)).toBeCloseTo(level + (duty - level) / 2, 12);
    const fromAbove: Variant = {
      ...punch,
      script: { ...script, throttle: [[0, { kind: "duty", duty: level + 0.2 }]] },
    };
    expect(milderVariant(plan, fromAbove, 0.5).trim.throttle).toBeCloseTo(level + 0.1, 12);
  });

  it("of the whole share is the variant itself", () => {
    for (const variant of plan.variants) expect(milderVariant(plan, variant, 1)).toBe(variant);
  });
});
