// The gains that hold an axis while the other is swept, against the poles of the whole loop and its exact margins.

import { describe, expect, test } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import { trimAt } from "../../src/airframe/trim.js";
import { I_UNIT, P_UNIT } from "../../src/base/units.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { levelTrim, type Plan } from "../../src/plan/plan.js";
import { softHold } from "../../src/plan/soft-hold.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { marginsOf } from "../../src/theory/margins.js";
import { FULL, nudge, planOf, stretchedX, TIRED } from "../fixtures/airframe.js";
import { bothAxes } from "../fixtures/both-axes.js";
import { randomModel } from "../octave/random-craft.js";
import { closedLoopPoles, spectralRadius } from "../theory/closed-loop-poles.js";

const NONE = { p: 0, i: 0, d: 0 };
const AXES = ["roll", "pitch"] as const;

/** Of each axis at each level under each condition, while the other axis is under test and its loop open. */
function holdingLoops(plan: Plan) {
  const { yaw } = plan.airframe.controller;
  return AXES.flatMap((axis) =>
    plan.variants
      .filter((variant) => variant.axis === axis)
      .map((variant) => {
        const { craft } = plan.conditions[variant.condition];
        const trim = levelTrim(plan, variant);
        const holding = { roll: NONE, pitch: NONE, yaw };
        return {
          radius: spectralRadius(closedLoopPoles(craft, trim, { ...holding, [axis]: plan.holding[axis] })),
          margins: marginsOf(axisPieces(craft, trim, axis, holding), plan.holding[axis]),
        };
      }),
  );
}

const least = (values: readonly (number | null)[]): number =>
  values.reduce<number>((low, value) => Math.min(low, value ?? Number.POSITIVE_INFINITY), Number.POSITIVE_INFINITY);

/** The broken axis keeps poles at 1, which eigenvalues miss by their rounding. */
const ROUNDING = 1e-6;

// 6 dB and 30 deg: Ogata, Modern Control Engineering (from memory).
function expectCalm(plan: Plan, share = 1): void {
  const loops = holdingLoops(plan);
  expect(Math.max(...loops.map(({ radius }) => radius))).toBeLessThan(1 + ROUNDING);
  expect(least(loops.flatMap(({ margins }) => [margins.gainUp, margins.gainDown]))).toBeGreaterThanOrEqual(share * 6);
  expect(least(loops.map(({ margins }) => margins.phase))).toBeGreaterThanOrEqual(share * 30);
}

const nightly = readSweep("sweeps/slow-loop.yaml").value;
const nudges = {
  ...nightly,
  grid: bothAxes({ p: [2 * P_UNIT, 60 * P_UNIT], d: [0] }),
  scripts: nightly.scripts.filter(({ script }) => script.name === "nudge"),
};

function shipped(model: string, i: number | null, gains: object = {}): Plan {
  const { value, document } = readAirframe(`models/${model}.yaml`);
  const axis = (own: typeof value.controller.roll) => ({ ...own, i: i === null ? own.i : i * I_UNIT });
  const { controller } = value;
  const swept = { roll: axis(controller.roll), pitch: axis(controller.pitch), ...gains };
  const sweep = { value: nudges, document: readSweep("sweeps/slow-loop.yaml").document };
  return planFor({ value: { ...value, controller: { ...controller, ...swept } }, document }, sweep);
}

describe.each(["sandpiper-r1", "dunlin-r1", "turnstone-r1", "curlew-r1"])("%s", (model) => {
  test.each([0, 25, 40, 60, 100])("I %s: held with the wanted margins at every level and condition", (i) => {
    expectCalm(shipped(model, i));
  });
});

test("where the soft P has the margins it stays, bit for bit", () => {
  const plan = shipped("sandpiper-r1", 0);
  const [{ craft, hover }] = plan.conditions;
  for (const axis of AXES) expect(plan.holding[axis]).toEqual({ p: softHold(craft, hover, axis).p, i: 0, d: 0 });
  expect(plan.assumed.join()).toContain("weakly on purpose");
});

describe("craft of every kind, built askew", () => {
  // I from none to four times what a textbook integral takes, 1/lag of P.
  test.each(Array.from({ length: 20 }, (_, seed) => seed))("seed %i", (seed) => {
    const { airframe, gains, throttle } = randomModel(seed);
    const { controller } = airframe;
    const [{ craft, hover }] = planOf(airframe, nudge(1), [throttle], [FULL]).conditions;
    const swept = Object.fromEntries(
      AXES.map((axis) => {
        const { p, lag } = softHold(craft, hover, axis);
        return [axis, { p: null, i: ((seed % 5) * p) / lag, d: null }];
      }),
    );
    const yaw = { ...gains.yaw, p: (seed % 3) * gains.yaw.p, i: 0 };
    const airframeWith = (gains: typeof yaw): Airframe => ({
      ...airframe,
      controller: { ...controller, ...swept, yaw: gains },
    });
    const planned = (gains: typeof yaw) =>
      planOf(airframeWith(gains), nudge(1), [hover.throttle, throttle], [FULL, TIRED]);
    const unstable = [FULL, TIRED].some((condition) =>
      [hover.throttle, throttle].some((level) => {
        const bare = craftUnder(airframe, condition);
        return (
          spectralRadius(closedLoopPoles(bare, trimAt(bare, level), { roll: NONE, pitch: NONE, yaw })) > 1 + ROUNDING
        );
      }),
    );
    if (unstable) expect(() => planned(yaw)).toThrow("yaw is unstable");
    const plan = planned(unstable ? NONE : yaw);
    const short = plan.assumed
      .map((line) => /leaves (\d+) % of/.exec(line)?.[1])
      .filter((share) => share !== undefined);
    expectCalm(plan, Math.min(1, ...short.map((share) => Number(share) / 100)));
    if (seed % 5 === 0) expect(short).toEqual([]);
  });
});

describe("what cannot be held as wanted is reported", () => {
  const withI = (i: number) => {
    const swept = { p: null, i: i * I_UNIT, d: null };
    return planOf(
      { ...stretchedX, controller: { ...stretchedX.controller, latency: 2e-3, roll: swept, pitch: swept } },
      nudge(1),
      [0.5],
      [FULL, TIRED],
    );
  };

  test("less margin than wanted, with the share that is left", () => {
    const plan = withI(1000);
    expect(plan.holding.roll.i).toBe(1000 * I_UNIT);
    const [, percent] = /No hold of roll leaves 6 dB and 30 deg: .* (\d+) %/.exec(plan.assumed.join("\n")) ?? [];
    expect(Number(percent)).toBeGreaterThan(0);
    expect(Number(percent)).toBeLessThan(100);
    expectCalm(plan, 0.01);
  });

  test("no gains at all: less I, of the hold alone", () => {
    const plan = withI(5000);
    expect(plan.airframe.controller.roll.i).toBe(5000 * I_UNIT);
    expect(plan.holding.roll.i).toBeLessThan(5000 * I_UNIT);
    expect(plan.assumed.join("\n")).toContain("No P and D hold roll with its I of 5000 %");
    expectCalm(plan);
  });
});

describe("a hold that the model declares and that is unstable", () => {
  const refusal = (gains: object): string => {
    try {
      shipped("sandpiper-r1", null, gains);
    } catch (error) {
      return (error as Error).message;
    }
    return "planned";
  };
  const i = 60 * I_UNIT;

  test("is a problem of the model file that says where, and what would hold", () => {
    const line = refusal({ roll: { p: 0.94 * P_UNIT, i, d: null } });
    expect(line).toMatch(
      /^models\/sandpiper-r1\.yaml:\d+:\d+ controller\.gains\.roll\.p: with P 0\.94 .* and I 60 .* roll is unstable in hover, fresh pack \(and 3 more\); try "p: [\d.]+ %/,
    );
    const [, tried] = /try "p: ([\d.]+) %/.exec(line) ?? [];
    expect(refusal({ roll: { p: Number(tried) * P_UNIT, i, d: null } })).toBe("planned");
  });

  test("yaw's is one as well", () => {
    const line = refusal({ yaw: { p: 300 * P_UNIT, i: 30 * I_UNIT, d: 0 } });
    expect(line).toContain("controller.gains.yaw.p: with P 300");
    expect(line).toContain("yaw is unstable");
  });

  test("a D that no P holds is named", () => {
    expect(refusal({ pitch: { p: null, i, d: 1 } })).toContain("controller.gains.pitch.d: no P holds pitch with D");
  });

  test("one that holds with less than the wanted margins is used, and reported", () => {
    const plan = shipped("sandpiper-r1", 60, { roll: { p: 2.6 * P_UNIT, i, d: null } });
    expect(plan.holding.roll.p).toBe(2.6 * P_UNIT);
    expect(plan.assumed.join("\n")).toMatch(/The model's own hold of roll leaves \d+ % of 6 dB and 30 deg/);
  });
});
