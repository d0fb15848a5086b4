// A notch in either chain of the controller: the loop's edges against the poles of the whole sampled loop, however narrow it is.
import { describe, expect, test } from "vitest";
import type { Airframe, Notch } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import { notchDelay } from "../../src/airframe/filter.js";
import { trimAt } from "../../src/airframe/trim.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { effectsOf } from "../../src/theory/sensitivity.js";
import { FULL, stretchedX } from "../fixtures/airframe.js";
import { closedLoopPoles } from "./closed-loop-poles.js";

const I = 40 * I_UNIT;
const holding = {
  roll: { p: 12 * P_UNIT, i: I, d: 0 },
  pitch: { p: 14 * P_UNIT, i: I, d: D_UNIT },
  yaw: { p: 40 * P_UNIT, i: 30 * I_UNIT, d: 0 },
};
const RANGE = { from: 0.3 * P_UNIT, to: 1e5 * P_UNIT };

const withNotches = (gyro: readonly Notch[], slope: readonly Notch[]): Airframe => ({
  ...stretchedX,
  sensing: { ...stretchedX.sensing, notch: gyro },
  controller: { ...stretchedX.controller, derivativeNotch: slope },
});

/** How far the nearest pole lies from where an oscillation of this frequency (rad/s) stands. */
function missedBy(airframe: Airframe, p: number, d: number, frequency: number): number {
  const craft = craftUnder(airframe, FULL);
  const poles = closedLoopPoles(craft, trimAt(craft, 0.5), { ...holding, roll: { p, i: I, d } });
  const angle = frequency / airframe.controller.rate;
  return Math.min(...poles.map(({ re, im }) => Math.hypot(re - Math.cos(angle), im - Math.sin(angle))));
}

const edges = (airframe: Airframe, d: number) => {
  const craft = craftUnder(airframe, FULL);
  return ultimateGain(axisPieces(craft, trimAt(craft, 0.5), "roll", holding), d, I, RANGE);
};

describe.each([
  ["1 Hz wide at 30 Hz", [{ centre: 30, width: 1 }], []],
  ["as it is used, 40 Hz wide at 180 Hz", [{ centre: 180, width: 40 }], []],
  [
    "three of the gyro's and one of D's",
    [
      { centre: 20, width: 1 },
      { centre: 41, width: 3 },
      { centre: 200, width: 60 },
    ],
    [{ centre: 35, width: 1 }],
  ],
  ["of D alone, 1 Hz wide at 30 Hz", [], [{ centre: 30, width: 1 }]],
])("%s", (_, gyro, slope) => {
  const airframe = withNotches(gyro, slope);
  test.each([0, 1, 3])("D %i: at every edge, and at no other place, an oscillation stands", (units) => {
    const found = edges(airframe, units * D_UNIT);
    expect(found.length).toBeGreaterThan(0);
    for (const { p, frequency } of found.filter((one) => one.p < 1e3 * P_UNIT))
      expect(missedBy(airframe, p, units * D_UNIT, frequency), `${p / P_UNIT} at ${frequency}`).toBeLessThan(1e-6);
  });
});

/** The first edge beyond the slow swing against the integral. */
const firstEdge = (airframe: Airframe, d: number) =>
  edges(airframe, d).find(({ p }) => p > 5 * P_UNIT) as { readonly p: number };

test("a notch far above the loop's own frequency costs what latency of the same delay costs, to a tenth", () => {
  const plain = firstEdge(stretchedX, 0).p;
  const notch = { centre: 400, width: 60 };
  const delay = notchDelay(notch, stretchedX.controller.rate);
  const controller = { ...stretchedX.controller, latency: stretchedX.controller.latency + delay };
  const [cost, expected] = [withNotches([notch], []), { ...stretchedX, controller }].map(
    (one) => 1 - firstEdge(one, 0).p / plain,
  );
  expect(expected).toBeGreaterThan(0.005);
  expect(Math.abs(cost / expected - 1)).toBeLessThan(0.1);
});

test("what its centre and width do to the boundary is among the sensitivities of a model that has one", async () => {
  const place = (airframe: Airframe) => {
    const { p } = firstEdge(airframe, D_UNIT);
    return { airframe, around: FULL, throttle: 0.5, axis: "roll" as const, holding, d: D_UNIT, p };
  };
  const keys = (await effectsOf(place(stretchedX), 0.1)).map(({ key }) => key);
  expect(keys.some((key) => key.includes("notch"))).toBe(false);
  const effects = await effectsOf(
    place(withNotches([{ centre: 150, width: 60 }], [{ centre: 1990, width: 1990 }])),
    0.1,
  );
  const of = (key: string) => effects.find((one) => one.key === key);
  const [centre, width] = [of("sensing.notch.centre"), of("sensing.notch.width")];
  expect(centre?.more).toBeGreaterThan(1);
  expect(centre?.less).toBeLessThan(1);
  expect(width?.more).toBeLessThan(1);
  expect(width?.less).toBeGreaterThan(1);
  expect(of("controller.rate_derivative_notch.centre")?.more).not.toBeNull();
});
