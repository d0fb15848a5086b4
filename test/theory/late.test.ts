// Latency of any fraction of a control period in theory: a plain plant against the modified z-transform, and a craft whose
// boundary has neither step nor corner.
import { Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { craftUnder } from "../../src/airframe/craft.js";
import { delayOf } from "../../src/airframe/latency.js";
import { trimAt } from "../../src/airframe/trim.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { holdOfTwo } from "../../src/theory/hold.js";
import { delayedResponse, exactPeriod } from "../../src/theory/plant.js";
import { steppedPlant } from "../../src/theory/stepped.js";
import { FULL, stretchedX } from "../fixtures/airframe.js";
import { lagBehindFractionalHold } from "../kernel/modified-z.js";

describe("integrator and lag behind a hold", () => {
  const [lag, period] = [0.03, 0.002];
  const plant = {
    a: new Matrix([
      [0, 1],
      [0, -1 / lag],
    ]),
    b: new Matrix([[0], [1 / lag]]),
  };

  test.each([0, 0.1, 0.5, 0.999, 1, 1.75, 3.3])(
    "late by %f periods: the modified z-transform's response",
    (periods) => {
      const delay = delayOf({ controller: { rate: 1 / period, latency: periods * period } });
      const angles = Float64Array.of(0.01, 0.1, 0.5, 1, 2, 3);
      const frequencies = angles.map((angle) => angle / period);
      const held = holdOfTwo(plant, period, delay.newerShare);
      const [[found]] = delayedResponse(held, delay, [0], frequencies, 1 / period);
      const wanted = lagBehindFractionalHold(lag, periods, period);
      angles.forEach((angle, k) => {
        const [re, im] = wanted(angle);
        const off = Math.hypot(found.re[k] - re, found.im[k] - im) / Math.hypot(re, im);
        expect(off).toBeLessThan(1e-10);
      });
    },
  );
});

describe.each([
  ["exactly", exactPeriod, 1],
  ["as the loop steps it, once a period", steppedPlant, 1],
  ["as the loop steps it, three times a period", steppedPlant, 3],
])("a craft late by 3 to 4 periods, %s", (_, period, substeps) => {
  const holding = {
    roll: { p: 12 * P_UNIT, i: 40 * I_UNIT, d: D_UNIT },
    pitch: { p: 14 * P_UNIT, i: 40 * I_UNIT, d: D_UNIT },
    yaw: { p: 40 * P_UNIT, i: 30 * I_UNIT, d: 0 },
  };
  const limit = (periods: number, d: number) => {
    const controller = { ...stretchedX.controller, substeps, latency: periods / stretchedX.controller.rate };
    const craft = craftUnder({ ...stretchedX, controller }, FULL);
    const pieces = axisPieces(craft, trimAt(craft, 0.5), "roll", holding, period);
    const [{ p }] = ultimateGain(pieces, d, 40 * I_UNIT, { from: 3 * P_UNIT, to: 130 * P_UNIT });
    return p;
  };

  test.each([0, 1, 3])("D %i: the boundary falls all the way, and every tenth of a period by its share", (units) => {
    const boundary = Array.from({ length: 11 }, (_, k) => limit(3 + k / 10, units * D_UNIT));
    const falls = boundary.slice(1).map((p, k) => 1 - p / boundary[k]);
    const mean = falls.reduce((sum, fall) => sum + fall, 0) / falls.length;
    expect(mean).toBeGreaterThan(0.003);
    for (const fall of falls) {
      expect(fall).toBeGreaterThan(0);
      expect(Math.abs(fall / mean - 1)).toBeLessThan(0.1);
    }
  });

  test("nothing jumps where a period is full", () => {
    for (const periods of [3, 4]) {
      const [before, at, after] = [-1e-6, 0, 1e-6].map((by) => limit(periods + by, D_UNIT));
      expect(Math.abs(before / at - 1)).toBeLessThan(1e-6);
      expect(Math.abs(after / at - 1)).toBeLessThan(1e-6);
    }
  });
});
