// How the size of the physics step affects a trial and the boundary found by trials.
import { describe, expect, test } from "vitest";
import { craftUnder } from "../../src/airframe/craft.js";
import { hoverTrim } from "../../src/airframe/trim.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { rigOf } from "../../src/kernel/rig.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { askew, FULL, nudge, planOf, stretchedX, TIRED, withSubsteps } from "../fixtures/airframe.js";
import { byLoop, bySolver, type OpenLoopTrial } from "./open-loop.js";

/** Slope of log(error) against log(step) by least squares. */
function order(errors: readonly (readonly [steps: number, error: number])[]): number {
  const points = errors.map(([steps, error]) => [-Math.log(steps), Math.log(error)]);
  const mean = (k: number) => points.reduce((sum, point) => sum + point[k], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const moment = points.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0);
  return moment / points.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
}

const largest = (a: ArrayLike<number>, b: ArrayLike<number>) =>
  Array.from(a).reduce((most, v, k) => Math.max(most, Math.abs(v - b[k])), 0);

const STEPS = [1, 2, 4, 8];

test("a roll under control converges with the square of the step", () => {
  const rate = (degrees: number) => ({ kind: "rate" as const, rate: (degrees * Math.PI) / 180 });
  const roll = {
    ...nudge(0),
    duration: 0.15,
    window: { from: 0.05, to: 0.1 },
    command: [
      [0, rate(0)],
      [0.02, rate(0)],
      [0.08, rate(200)],
      [0.12, rate(0)],
    ] as const,
  };
  const traces = new Map(
    [...STEPS, 64].map((substeps) => {
      const plan = planOf(withSubsteps(stretchedX, substeps), roll, [0.5], [FULL]);
      const rig = rigOf(plan, plan.variants[0]);
      const scratch = scratchFor(rig);
      simulateTrial(rig, 15 * P_UNIT, 1 * D_UNIT, { from: 0, to: rig.steps }, scratch);
      return [substeps, scratch.trace] as const;
    }),
  );
  const finest = traces.get(64) ?? [];
  const errors = STEPS.map((steps) => [steps, largest(traces.get(steps) ?? [], finest)] as const);
  expect(order(errors)).toBeGreaterThan(1.9);
  expect(order(errors)).toBeLessThan(2.2);
  // One step per control period: within a ten-thousandth of the 200 deg/s (3.5 rad/s) commanded.
  expect(errors[0][1]).toBeLessThan(3.5e-4);
});

describe("against an independent solver of the equations of motion", () => {
  const craft = craftUnder(askew, TIRED);
  const start = hoverTrim(craft);
  if (start === null) throw new Error("the test craft cannot hover");
  const trial: OpenLoopTrial = {
    craft,
    start,
    commands: [0.06, -0.04, 0.1],
    segments: [
      { periods: 100, throttle: 0.6, climb: 0, gust: [0, 0] },
      { periods: 100, throttle: 0.3, climb: 3, gust: [2, -1] },
      { periods: 100, throttle: 0.75, climb: -2, gust: [-3, 4] },
    ],
  };
  const wanted = bySolver(trial);
  /** Largest difference over all states and segments, as a share of the state. */
  const differs = (found: number[][]) =>
    Math.max(...found.flatMap((states, k) => states.map((v, n) => Math.abs(v / wanted[k][n] - 1))));
  const errors = [...STEPS, 16].map((steps) => [steps, differs(byLoop(trial, steps))] as const);

  test("the craft does turn about all axes in that script", () => {
    expect(wanted[2].slice(-3).every((rate) => Math.abs(rate) > 1)).toBe(true);
  });

  test("speeds and rates converge on its answer with the square of the step", () => {
    expect(order(errors)).toBeGreaterThan(1.9);
    expect(order(errors)).toBeLessThan(2.2);
  });

  test("with sixteen steps a control period they agree to 1e-6", () => {
    expect(errors[4][1]).toBeLessThan(1e-6);
  });
});

describe("halving the step, with the same control period and latency, moves the boundary by less than 0.5 %", () => {
  const [one, two] = [1, 2].map((substeps) => {
    const plan = planOf(withSubsteps(stretchedX, substeps), nudge(1), [0.5], [FULL]);
    return { plan, run: taskRunner(plan) };
  });

  function boundary({ run }: typeof one, d: number, from: number, to: number): number {
    const outcome = (p: number) => run({ variant: 0, p: Float64Array.of(p), d: Float64Array.of(d) }).outcome[0];
    let [low, high] = [from, to];
    expect([outcome(low), outcome(high)]).toEqual([0, 1]);
    while (high - low > 2e-5 * high) {
      const middle = 0.5 * (low + high);
      if (outcome(middle) === 0) low = middle;
      else high = middle;
    }
    return high;
  }

  // Brackets in units of P: on the rising side, at the top and on the falling side of the fold.
  test.each([
    [0, 26, 31],
    [1, 46, 52],
    [2, 46, 52],
    [3, 32, 37],
    [4, 10, 13],
  ])("at D = %f", (d, from, to) => {
    const [coarse, fine] = [one, two].map((trials) => boundary(trials, d * D_UNIT, from * P_UNIT, to * P_UNIT));
    expect(Math.abs(fine / coarse - 1)).toBeLessThan(0.005);
  });
});
