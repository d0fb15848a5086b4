// Tails that are long enough for what is slow: theory's slow edges against the poles of the whole loop, and against trials.

import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { P_UNIT } from "../../src/base/units.js";
import { planFor } from "../../src/flow/plan.js";
import { modelOf, readAirframe, readSweep } from "../../src/flow/read.js";
import { slowWords } from "../../src/map/slow-words.js";
import { type Plan, planSweep } from "../../src/plan/plan.js";
import { CYCLES } from "../../src/plan/tails.js";
import { OUTCOMES } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { LONGEST } from "../../src/sweep/ranges.js";
import { bothAxes } from "../fixtures/both-axes.js";
import { closedLoopPoles } from "../theory/closed-loop-poles.js";

const slowSweep = readSweep("test/fixtures/slow.yaml");
const godwit = readAirframe(modelOf(slowSweep));
const slow = planFor(godwit, slowSweep);

/** Growth (1/s) and frequency (Hz) of the loop's least damped oscillation, from eigenvalues. */
function leastDamped(plan: Plan, p: number, d: number): { growth: number; hertz: number } {
  const [variant] = plan.variants;
  const { craft } = plan.conditions[variant.condition];
  const { controller } = plan.airframe;
  const gains = { ...plan.holding, yaw: controller.yaw, [variant.axis]: { p, i: controller[variant.axis].i, d } };
  const found = closedLoopPoles(craft, variant.trim, gains)
    .filter(({ im }) => im > 1e-9)
    .map(({ re, im }) => ({
      growth: controller.rate * Math.log(Math.hypot(re, im)),
      hertz: (controller.rate * Math.atan2(im, re)) / 2 / Math.PI,
    }));
  return found.reduce((most, one) => (one.growth > most.growth ? one : most));
}

/** The same plan with the scripts as they are written. */
const asWritten = (plan: Plan): Plan => ({
  ...plan,
  variants: plan.variants.map((variant) => {
    const input = plan.sweep.scripts.find(({ script }) => script.name === variant.script.name);
    return { ...variant, script: input?.script ?? variant.script };
  }),
});

const outcome = (plan: Plan, variant: number, p: number, d: number): string =>
  OUTCOMES[taskRunner(plan)({ variant, p: Float64Array.of(p), d: Float64Array.of(d) }).outcome[0]];

describe("a large craft whose loop gives out near 2 Hz", () => {
  it("has tails of four swings of its slowest oscillation on the edge of stability, and no more", () => {
    const shown = slow.slow?.find(({ axis }) => axis === "roll")?.shown as number;
    expect(slow.slow?.map(({ axis, unseen }) => [axis, unseen])).toEqual([
      ["roll", null],
      ["pitch", null],
    ]);
    for (const { script } of slow.variants) {
      const length = script.tail.to - script.tail.from;
      expect(length).toBeGreaterThanOrEqual(CYCLES / shown - 1e-9);
      expect(length).toBeLessThan(CYCLES / shown + 0.011);
      expect(script.duration).toBe(script.tail.to);
    }
  });

  it("swings there at the frequency that the eigenvalues of the whole loop have", () => {
    const shown = slow.slow?.find(({ axis }) => axis === "roll")?.shown as number;
    const edges = slow.sweep.grid.roll.d.map((d) => {
      let [low, high] = [20 * P_UNIT, 260 * P_UNIT];
      while (high - low > 1e-6 * high) {
        const middle = 0.5 * (low + high);
        if (leastDamped(slow, middle, d).growth < 0) low = middle;
        else high = middle;
      }
      return leastDamped(slow, high, d).hertz;
    });
    expect(Math.min(...edges)).toBeGreaterThan(1.5);
    expect(shown / Math.min(...edges)).toBeCloseTo(1, 3);
  });

  it("is seen to give out by a nudge that would have called it stable as it was written", () => {
    const [p, d] = [90 * P_UNIT, 0];
    const { growth, hertz } = leastDamped(slow, p, d);
    expect(growth).toBeGreaterThan(0.2);
    expect(hertz).toBeLessThan(2.5);
    expect(outcome(asWritten(slow), 0, p, d)).toBe("dies out");
    expect(outcome(slow, 0, p, d)).toBe("sustained");
    expect(outcome(slow, 0, 70 * P_UNIT, d)).toBe("dies out");
  });

  it("asks of its windows what the scripts say, and begins its tails where they do", () => {
    for (const { script } of slow.variants) {
      const input = slow.sweep.scripts.find((use) => use.script.name === script.name)?.script;
      expect({ ...script, duration: 0, tail: script.tail.from }).toEqual({
        ...input,
        duration: 0,
        tail: input?.tail.from,
      });
    }
  });
});

describe("a craft slower than any script", () => {
  const { airframe, sweep } = slow;
  const lazy = planSweep(
    {
      ...airframe,
      propeller: { ...airframe.propeller, inertia: 40 * airframe.propeller.inertia },
      sensing: { ...airframe.sensing, lowPass: [{ order: 2, cutoff: 1.5 }] },
      controller: {
        ...airframe.controller,
        roll: { ...airframe.controller.roll, i: 0.02 * airframe.controller.roll.i },
        pitch: { ...airframe.controller.pitch, i: 0.02 * airframe.controller.pitch.i },
      },
    },
    { ...sweep, grid: bothAxes({ p: [2, 20, 40, 80, 160].map((p) => p * P_UNIT), d: [0] }) },
  ) as Plan;

  it("is reported, and its scripts stay within what any script may last", () => {
    const roll = lazy.slow?.find(({ axis }) => axis === "roll");
    expect(roll?.unseen).toBeLessThan(CYCLES / (LONGEST - 1));
    for (const { script } of lazy.variants) expect(script.duration).toBeLessThanOrEqual(LONGEST);
    expect(slowWords(lazy).join("\n")).toMatch(/^Slower still: .* roll swings at .* theory alone judges it\.$/m);
  });
});

describe("a shipped craft", () => {
  const models = readdirSync("models").filter((file) => file.endsWith(".yaml"));
  const sweep = readSweep("sweeps/first-tune.yaml");

  it.each(models)("%s is quick enough: its scripts are simulated as they are written", (file) => {
    const plan = planFor(readAirframe(`models/${file}`), sweep);
    expect(plan.slow).toBe(undefined);
    for (const { script } of plan.variants) expect(plan.sweep.scripts.map((use) => use.script)).toContain(script);
  });
});
