// The linear model against the loop itself: control periods of the simulated craft, differentiated numerically.

import { Matrix } from "ml-matrix";
import { beforeAll, describe, expect, test } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import type { Trim } from "../../src/airframe/powered.js";
import { trimAt } from "../../src/airframe/trim.js";
import { advance } from "../../src/kernel/loop.js";
import * as m from "../../src/kernel/memory.js";
import { craftMemory, shapeOf } from "../../src/kernel/rig.js";
import { zeroOrderHold } from "../../src/theory/hold.js";
import { type LinearPlant, linearPlant } from "../../src/theory/linear.js";
import { steppedPlant } from "../../src/theory/stepped.js";
import { askew, FULL, stretchedX, TIRED, withSubsteps } from "../fixtures/airframe.js";

/** Six rotors, turned out of line with the axes, their centre of mass off the middle. */
const hexacopter: Airframe = {
  ...askew,
  rotors: [0, 1, 2, 3, 4, 5].map((k) => ({
    at: [0.11 * Math.cos(1 + k * 1.04), 0.11 * Math.sin(1 + k * 1.04), 0.01] as const,
    spin: k % 2 === 0 ? (1 as const) : (-1 as const),
  })),
};

/** Speeds and body rates after control periods at given speeds, rates and duties: the loop with all gains zero. */
function simulatedStates(
  airframe: Airframe,
  condition: typeof FULL,
  states: readonly number[],
  duties: readonly number[],
  periods: number,
): number[] {
  const craft = craftUnder(airframe, condition);
  const shape = shapeOf(craft);
  const count = shape.rotors;
  const state = new Float64Array(m.stateLength(shape));
  state.set(states.slice(count), m.BODY_RATE);
  const speeds = m.STATE_SIZE;
  state.set([...states.slice(0, count), ...states.slice(0, count)], speeds);
  for (let slot = 0; slot <= shape.delaySteps; slot++) state.set(duties, m.delayLineAt(shape) + slot * count);
  const width = m.driveWidth(shape);
  const drive = new Float64Array(periods * width);
  for (let k = 0; k < periods; k++) drive.fill(1, k * width + m.THRUST_SHARE, (k + 1) * width);
  const counts = m.countsOf(shape);
  advance(craftMemory(craft, shape), drive, state, new Float64Array(periods), ...counts, 0, 1, 0, 0, periods);
  return [...state.subarray(speeds, speeds + count), ...state.subarray(m.BODY_RATE, m.BODY_RATE + 3)];
}

/** Central differences of the same over each state and duty. */
function differentiated(airframe: Airframe, condition: typeof FULL, trim: Trim, periods: number): LinearPlant {
  const states = [...trim.speeds, 0, 0, 0];
  const duties = [...trim.duties];
  const slopes = (of: readonly number[], step: number, simulate: (x: number[]) => number[]) =>
    new Matrix(
      of.map((_, k) => {
        const at = (by: number) => simulate(of.map((v, n) => (n === k ? v + by : v)));
        const [above, below] = [at(step), at(-step)];
        return above.map((v, n) => (v - below[n]) / (2 * step));
      }),
    ).transpose();
  return {
    a: slopes(states, 1e-2, (x) => simulatedStates(airframe, condition, x, duties, periods)),
    b: slopes(duties, 1e-4, (u) => simulatedStates(airframe, condition, states, u, periods)),
  };
}

/** Largest difference of two matrices over the largest entry of each row. */
function worst(found: Matrix, wanted: Matrix): number {
  let most = 0;
  for (let row = 0; row < wanted.rows; row++) {
    const scale = Math.max(...wanted.getRow(row).map(Math.abs));
    found.getRow(row).forEach((v, column) => {
      most = Math.max(most, Math.abs(v - wanted.get(row, column)) / scale);
    });
  }
  return most;
}

describe.each([
  ["stretched X", stretchedX, FULL, 0.5],
  ["built askew, tired pack", askew, TIRED, 0.3],
  ["six rotors, askew", hexacopter, FULL, 0.8],
])("%s", (_, airframe, condition, throttle) => {
  let loop: LinearPlant;
  let model: LinearPlant;
  beforeAll(() => {
    const fine = withSubsteps(airframe, 256);
    const craft = craftUnder(fine, condition);
    const trim = trimAt(craft, throttle);
    loop = differentiated(fine, condition, trim, 1);
    model = zeroOrderHold(linearPlant(craft, trim), 1 / airframe.controller.rate);
  });

  test("duties act on speeds and rates as modelled", () => {
    expect(worst(model.b, loop.b)).toBeLessThan(1e-6);
  });

  test("speeds and rates act on each other as modelled", () => {
    const rest = Matrix.eye(model.a.rows);
    const [found, wanted] = [Matrix.sub(model.a, rest), Matrix.sub(loop.a, rest)];
    expect(worst(found, wanted)).toBeLessThan(1e-6);
  });
});

// The loop's own step, as coarse as in trials: as many periods as its delay line holds, so that what each step remembers of
// the one before counts.
describe.each([
  ["stretched X, one step a period", stretchedX, FULL, 0.5, 1],
  ["built askew, tired pack, three steps", askew, TIRED, 0.3, 3],
  ["six rotors, askew, two steps", hexacopter, FULL, 0.8, 2],
])("%s", (_, airframe, condition, throttle, substeps) => {
  const PERIODS = 4;
  const stepped = withSubsteps(airframe, substeps);
  const craft = craftUnder(stepped, condition);
  const trim = trimAt(craft, throttle);
  const { a, b } = steppedPlant(craft, trim);
  const count = craft.arms.length;
  // A trial starts with the mid-step speeds at the true ones, and turning steadily.
  const start = Matrix.zeros(a.rows, count + 3);
  for (let k = 0; k < count; k++) start.set(k, k, 1).set(count + k, k, 1);
  for (let k = 0; k < 3; k++) start.set(2 * count + 3 + k, count + k, 1);
  const shown = [...Array.from({ length: count }, (_, k) => k), ...[3, 4, 5].map((k) => 2 * count + k)];
  const outputs = (states: Matrix) => states.subMatrixRow(shown);

  test("states and duties act as the loop steps them", () => {
    let states = start;
    let driven = Matrix.zeros(a.rows, count);
    for (let k = 0; k < PERIODS; k++) [states, driven] = [a.mmul(states), Matrix.add(a.mmul(driven), b)];
    const loop = differentiated(stepped, condition, trim, PERIODS);
    expect(
      worst(Matrix.sub(outputs(states), Matrix.eye(count + 3)), Matrix.sub(loop.a, Matrix.eye(count + 3))),
    ).toBeLessThan(1e-6);
    expect(worst(outputs(driven), loop.b)).toBeLessThan(1e-6);
  });

  test("it comes to the exact period as the step shrinks, with its square", () => {
    const exact = zeroOrderHold(linearPlant(craft, trim), 1 / airframe.controller.rate);
    const off = [4, 8, 16].map((steps) => {
      const fine = craftUnder(withSubsteps(airframe, steps), condition);
      const one = steppedPlant(fine, trim);
      // In the long run, not in one period: powers of both over a quarter of a second.
      const run = (plant: LinearPlant, from: Matrix) => {
        let power = plant.a;
        for (let k = 0; k < 10; k++) power = power.mmul(power);
        return power.mmul(from);
      };
      return worst(outputs(run(one, start)), run(exact, Matrix.eye(count + 3)));
    });
    expect(Math.log2(off[0] / off[1])).toBeGreaterThan(1.8);
    expect(Math.log2(off[1] / off[2])).toBeGreaterThan(1.8);
  });
});
