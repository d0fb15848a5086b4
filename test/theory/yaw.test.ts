// Yaw: the linear plant against its closed form for a craft that is the same on all sides, and its boundary against simulated
// trials in which yaw is under test.
import { Matrix, solve } from "ml-matrix";
import { describe, expect, test } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import { trimAt } from "../../src/airframe/trim.js";
import { P_UNIT } from "../../src/base/units.js";
import type { TrialPlan, TrialVariant } from "../../src/plan/plan.js";
import { OUTCOMES } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { linearPlant } from "../../src/theory/linear.js";
import { askew, FULL, nudge, planOf, stretchedX, TIRED } from "../fixtures/airframe.js";

/** Yaw rate per yaw command at s = jw, by solving the linear plant's own equations. */
function responseOf(airframe: Airframe, w: number): readonly [re: number, im: number] {
  const craft = craftUnder(airframe, FULL);
  const { a, b } = linearPlant(craft, trimAt(craft, 0.4));
  const n = a.rows;
  const input = b.mmul(Matrix.columnVector([...craft.mixer.yaw]));
  const whole = Matrix.zeros(2 * n, 2 * n)
    .setSubMatrix(Matrix.mul(a, -1), 0, 0)
    .setSubMatrix(Matrix.mul(Matrix.eye(n), -w), 0, n)
    .setSubMatrix(Matrix.mul(Matrix.eye(n), w), n, 0)
    .setSubMatrix(Matrix.mul(a, -1), n, n);
  const state = solve(whole, Matrix.zeros(2 * n, 1).setSubMatrix(input, 0, 0));
  return [state.get(n - 1, 0), state.get(2 * n - 1, 0)];
}

// Motors J w' = K i - kQ w^2, R i = u V - K w, body Izz r' = -K sum(s i), differentiated by hand; the pack's voltage stays, since as
// many rotors speed up as slow down. Derived here, no source: r/u = 4 K V/(R Izz) (J s + 2 kQ w)/(J s + K^2/R + 2 kQ w)/s.
test("the plant of a craft that is the same on all sides is its closed form", () => {
  const craft = craftUnder(stretchedX, FULL);
  const trim = trimAt(craft, 0.4);
  const { constant: k, resistance } = stretchedX.motor;
  const load = 2 * craft.torqueStatic * trim.speeds[0];
  const j = craft.rotorInertia;
  const gain = (4 * k * trim.volts) / (resistance * craft.inertia.zz);
  for (const w of [0.5, 5, 30, 100, 600, 5000]) {
    const [top, bottom] = [
      [load, j * w],
      [(k * k) / resistance + load, j * w],
    ];
    // (load + jw J)/(lag + jw J)/(jw)
    const square = bottom[0] ** 2 + bottom[1] ** 2;
    const re = (top[0] * bottom[0] + top[1] * bottom[1]) / square;
    const im = (top[1] * bottom[0] - top[0] * bottom[1]) / square;
    const [foundRe, foundIm] = responseOf(stretchedX, w);
    const size = (gain * Math.hypot(re, im)) / w;
    expect(Math.hypot(foundRe - (gain * im) / w, foundIm + (gain * re) / w) / size).toBeLessThan(1e-9);
  }
});

test("what turns the craft at once is the rotors' own inertia: at high frequencies torque follows the duty without lag", () => {
  const [re, im] = responseOf(stretchedX, 1e5);
  expect(Math.abs(re / im)).toBeLessThan(0.01);
  const craft = craftUnder(stretchedX, FULL);
  const { constant, resistance } = stretchedX.motor;
  const atOnce = (4 * constant * trimAt(craft, 0.4).volts) / (resistance * craft.inertia.zz);
  expect((-im * 1e5) / atOnce).toBeCloseTo(1, 3);
});

const SUSTAINED = OUTCOMES.indexOf("sustained");
const RANGE = { from: 3 * P_UNIT, to: 3000 * P_UNIT };

/** The plan with yaw under test in each of its variants for roll. */
const yawPlan = (airframe: Airframe, throttle: readonly number[]): TrialPlan => {
  const plan = planOf(airframe, nudge(0.1), throttle, [FULL, TIRED]);
  return {
    ...plan,
    variants: plan.variants
      .filter(({ axis }) => axis === "roll")
      .map((variant, index): TrialVariant => ({ ...variant, index, axis: "yaw" })),
  };
};

describe.each([
  ["stretched X", stretchedX],
  ["built askew", askew],
])("%s, nudged about yaw", (_, airframe) => {
  const plan = yawPlan(airframe, [0.3, 0.6]);
  const run = taskRunner(plan);
  const sustained = (variant: TrialVariant, p: number): boolean =>
    run({ variant: variant.index, p: Float64Array.of(p), d: Float64Array.of(0) }).outcome[0] === SUSTAINED;

  test.each(
    plan.variants.map((variant) => [`${variant.throttle} of throttle, condition ${variant.condition}`, variant]),
  )("at %s: the boundary is the ultimate gain within half a per cent", (__, variant) => {
    const { craft } = plan.conditions[variant.condition];
    const holding = { ...plan.holding, yaw: airframe.controller.yaw };
    const pieces = axisPieces(craft, variant.trim, "yaw", holding);
    const [{ p }] = ultimateGain(pieces, 0, airframe.controller.yaw.i, RANGE).slice(-1);
    expect([sustained(variant, 0.995 * p), sustained(variant, 1.005 * p)]).toEqual([false, true]);
  });
});

test("I of its own, trial by trial: what the model's I gives is the same trial", () => {
  const plan = yawPlan(stretchedX, [0.4]);
  const run = taskRunner(plan);
  const { p, i } = stretchedX.controller.yaw;
  const gains = { variant: 0, p: Float64Array.of(p, p, p), d: new Float64Array(3) };
  const [own, given] = [run(gains), run({ ...gains, i: Float64Array.of(i, 0, 40 * i) })];
  const width = own.values.length / 3;
  const row = ({ values }: typeof own, at: number) => [...values.subarray(at * width, (at + 1) * width)];
  expect(row(given, 0)).toEqual(row(own, 0));
  expect(row(given, 1)).not.toEqual(row(own, 1));
  expect(row(given, 2)).not.toEqual(row(own, 2));
});
