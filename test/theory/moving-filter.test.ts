// Filters that move, where a throttle has them: closed forms of their response, the poles of the whole sampled loop, and what
// moving them does to the boundary.
import { describe, expect, test } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import { gainFactorsAt } from "../../src/airframe/gain-schedule.js";
import { meanSpeed } from "../../src/airframe/moving-filter.js";
import { trimAt } from "../../src/airframe/trim.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { controllerPieces } from "../../src/theory/controller.js";
import { effectsOf } from "../../src/theory/sensitivity.js";
import { askew, FULL } from "../fixtures/airframe.js";
import { closedLoopPoles } from "./closed-loop-poles.js";

const RATE = askew.controller.rate;
const I = 40 * I_UNIT;
const holding = {
  roll: { p: 12 * P_UNIT, i: I, d: 0 },
  pitch: { p: 14 * P_UNIT, i: I, d: D_UNIT },
  yaw: { p: 40 * P_UNIT, i: 30 * I_UNIT, d: 0 },
};

/** The craft built askew with these stages in the gyro's chain alone. */
const withGyro = (gyro: Partial<Airframe["sensing"]>, controller: Partial<Airframe["controller"]> = {}): Airframe => ({
  ...askew,
  sensing: { ...askew.sensing, lowPass: [], ...gyro },
  controller: { ...askew.controller, ...controller },
});
const NOTCH = { harmonic: 1, width: 0.3, lowest: 20 };
const trimOf = (airframe: Airframe, throttle: number) => trimAt(craftUnder(airframe, FULL), throttle);

/** Of P at a frequency in Hz: amplitude, and lag in rad. */
function response(airframe: Airframe, throttle: number, hertz: number) {
  const { p } = controllerPieces(airframe, trimOf(airframe, throttle), Float64Array.of(2 * Math.PI * hertz));
  return { amplitude: Math.hypot(p.re[0], p.im[0]), lag: -Math.atan2(p.im[0], p.re[0]) };
}

describe.each([0.25, 0.5, 0.8])("at %f throttle", (throttle) => {
  const notched = withGyro({ trackingNotch: [NOTCH] });
  const line = meanSpeed(trimOf(notched, throttle)) / 2 / Math.PI;

  test("a tracking notch lets nothing pass on the rotors' mean line, and half the power at two places its width apart", () => {
    expect(response(notched, throttle, line).amplitude).toBeLessThan(1e-12);
    const half = (from: number, to: number): number => {
      let [inside, outside] = [from, to];
      for (let round = 0; round < 60; round++) {
        const middle = 0.5 * (inside + outside);
        if (response(notched, throttle, middle).amplitude < Math.SQRT1_2) inside = middle;
        else outside = middle;
      }
      return outside;
    };
    expect((half(line, 3 * line) - half(line, 0)) / line).toBeCloseTo(NOTCH.width, 9);
  });

  test("below it, it lags as a notch does: tan lag = tan(width/2) sin w/(cos w - cos centre), angles per sample", () => {
    for (const share of [0.1, 0.4, 0.8]) {
      const angle = (hertz: number) => (2 * Math.PI * hertz) / RATE;
      const w = angle(share * line);
      const wanted = (Math.tan(angle(NOTCH.width * line) / 2) * Math.sin(w)) / (Math.cos(w) - Math.cos(angle(line)));
      expect(Math.tan(response(notched, throttle, share * line).lag)).toBeCloseTo(wanted, 9);
    }
  });

  test.each([1, 2] as const)("a low-pass of order %i has its corner where the schedule has it there", (order) => {
    const rows = [
      { throttle: 0.3, cutoff: 120 },
      { throttle: 0.7, cutoff: 320 },
    ];
    const airframe = withGyro({ lowPassSchedule: [{ order, corners: rows }] });
    const corner = 120 + 200 * Math.min(1, Math.max(0, (throttle - 0.3) / 0.4));
    const { amplitude, lag } = response(airframe, throttle, corner);
    expect(amplitude).toBeCloseTo(Math.SQRT1_2, 12);
    expect(lag).toBeCloseTo((order * Math.PI) / 4, 12);
  });

  test("at every edge of stability an oscillation stands, with moving stages in either chain", () => {
    const moving = withGyro(
      {
        trackingNotch: [NOTCH, { harmonic: 0.2, width: 0.05, lowest: 20 }],
        lowPassSchedule: [
          {
            order: 2,
            corners: [
              { throttle: 0.2, cutoff: 100 },
              { throttle: 0.9, cutoff: 300 },
            ],
          },
        ],
      },
      {
        derivativeTrackingNotch: [{ harmonic: 0.5, width: 0.3, lowest: 100 }],
        derivativeFilterSchedule: [{ order: 1, corners: [{ throttle: 0.5, cutoff: 90 }] }],
      },
    );
    const craft = craftUnder(moving, FULL);
    const trim = trimOf(moving, throttle);
    for (const d of [0, D_UNIT]) {
      const edges = ultimateGain(axisPieces(craft, trim, "roll", holding), d, I, { from: P_UNIT, to: 300 * P_UNIT });
      expect(edges.length).toBeGreaterThan(0);
      for (const { p, frequency } of edges) {
        const poles = closedLoopPoles(craft, trim, { ...holding, roll: { p, i: I, d } });
        const angle = frequency / RATE;
        const miss = Math.min(...poles.map(({ re, im }) => Math.hypot(re - Math.cos(angle), im - Math.sin(angle))));
        expect(miss).toBeLessThan(1e-6);
      }
    }
  });
});

test("below its limit a notch stands there, whatever the rotors do; gains keep their own schedule", () => {
  const rows = [{ throttle: 0.3, p: 0.5, i: 1, d: 1 }];
  const waiting = withGyro({ trackingNotch: [{ ...NOTCH, lowest: 700 }] }, { gainSchedule: rows });
  expect(meanSpeed(trimOf(waiting, 0.8)) / 2 / Math.PI).toBeLessThan(700);
  for (const throttle of [0.25, 0.8]) {
    expect(response(waiting, throttle, 700).amplitude).toBeLessThan(1e-12);
    expect(response(waiting, throttle, 1).amplitude).toBeCloseTo(gainFactorsAt(waiting, throttle).p, 4);
  }
});

test("sensitivities say what corners, width and limit do, of a model that has them", async () => {
  const keysOf = async (airframe: Airframe) => {
    const craft = craftUnder(airframe, FULL);
    const pieces = axisPieces(craft, trimAt(craft, 0.5), "roll", holding);
    const [{ p }] = ultimateGain(pieces, D_UNIT, I, { from: 10 * P_UNIT, to: 300 * P_UNIT });
    const place = { airframe, around: FULL, throttle: 0.5, axis: "roll" as const, holding, d: D_UNIT, p };
    return await effectsOf(place, 0.1);
  };
  const of = (effects: Awaited<ReturnType<typeof keysOf>>, key: string) => effects.find((one) => one.key === key);
  expect((await keysOf(withGyro({}))).some(({ key }) => /tracking|schedule/.test(key))).toBe(false);
  const corners = [{ throttle: 0.5, cutoff: 150 }];
  const effects = await keysOf(
    withGyro(
      { trackingNotch: [NOTCH], lowPassSchedule: [{ order: 1, corners }] },
      {
        derivativeFilterSchedule: [{ order: 1, corners: [{ throttle: 0.5, cutoff: 1990 }] }],
        derivativeTrackingNotch: [{ harmonic: 1, width: 0.95, lowest: 1950 }],
      },
    ),
  );
  const [corner, width, limit] = ["low_pass_schedule", "tracking_notch.width", "tracking_notch.lowest"].map((key) =>
    of(effects, `sensing.${key}`),
  );
  expect(corner?.more).toBeGreaterThan(1.01);
  expect(corner?.less).toBeLessThan(0.99);
  expect(width?.more).toBeLessThan(0.999);
  expect(width?.less).toBeGreaterThan(1.001);
  expect([limit?.more, limit?.less]).toEqual([1, 1]);
  for (const key of ["filter_schedule", "tracking_notch.width", "tracking_notch.lowest"])
    expect(of(effects, `controller.rate_derivative_${key}`)?.more).not.toBeNull();
});
