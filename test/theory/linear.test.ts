// The linear model against the loop itself: one control period of the flying craft, differentiated numerically.
import { beforeAll, describe, expect, test } from "vitest";
import { Matrix } from "ml-matrix";
import { craftUnder } from "../../src/airframe/craft.js";
import type { Airframe } from "../../src/airframe/airframe.js";
import { type Trim, trimAt } from "../../src/airframe/trim.js";
import { advance } from "../../src/kernel/loop.js";
import * as m from "../../src/kernel/memory.js";
import { craftMemory, shapeOf } from "../../src/kernel/rig.js";
import { held } from "../../src/theory/hold.js";
import { type LinearPlant, linearPlant } from "../../src/theory/linear.js";
import { askew, FULL, stretchedX, TIRED, withSubsteps } from "../fixtures/airframe.js";

/** Six rotors, turned out of line with the axes, their centre of mass off the middle. */
const hexacopter: Airframe = {
  ...askew,
  rotors: [0, 1, 2, 3, 4, 5].map((k) => ({
    at: [0.11 * Math.cos(1 + k * 1.04), 0.11 * Math.sin(1 + k * 1.04), 0.01] as const,
    spin: k % 2 === 0 ? (1 as const) : (-1 as const),
  })),
};

/** Speeds and body rates after one control period at given speeds, rates and duties: the loop with all gains zero. */
function flown(
  airframe: Airframe,
  condition: typeof FULL,
  states: readonly number[],
  duties: readonly number[],
): number[] {
  const craft = craftUnder(airframe, condition);
  const shape = shapeOf(craft);
  const count = shape.rotors;
  const state = new Float64Array(m.stateLength(shape));
  state.set(states.slice(count), m.BODY_RATE);
  const speeds = m.STATE_SIZE;
  state.set([...states.slice(0, count), ...states.slice(0, count)], speeds);
  for (let slot = 0; slot <= shape.delaySteps; slot++) state.set(duties, m.delayLineAt(shape) + slot * count);
  const drive = new Float64Array(m.driveWidth(shape)).fill(1, m.THRUST_SHARE);
  const counts = [count, shape.sensorStages, shape.derivativeStages, shape.delaySteps, shape.substeps] as const;
  advance(craftMemory(craft, shape), drive, state, new Float64Array(1), ...counts, 0, 0, 0, 1);
  return [...state.subarray(speeds, speeds + count), ...state.subarray(m.BODY_RATE, m.BODY_RATE + 3)];
}

/** Central differences of the same over each state and duty. */
function differentiated(airframe: Airframe, condition: typeof FULL, trim: Trim): LinearPlant {
  const states = [...trim.speeds, 0, 0, 0];
  const duties = [...trim.duties];
  const slopes = (of: readonly number[], step: number, fly: (x: number[]) => number[]) =>
    new Matrix(
      of.map((_, k) => {
        const at = (by: number) => fly(of.map((v, n) => (n === k ? v + by : v)));
        const [above, below] = [at(step), at(-step)];
        return above.map((v, n) => (v - below[n]) / (2 * step));
      }),
    ).transpose();
  return {
    a: slopes(states, 1e-2, (x) => flown(airframe, condition, x, duties)),
    b: slopes(duties, 1e-4, (u) => flown(airframe, condition, states, u)),
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
    loop = differentiated(fine, condition, trim);
    model = held(linearPlant(craft, trim), 1 / airframe.controller.rate);
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
