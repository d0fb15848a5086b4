// What the boundary says of its surroundings: how fast a swing grows beyond it, and which parameters move it.
import { describe, expect, test } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import { trimAt } from "../../src/airframe/trim.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { parametersOf } from "../../src/theory/parameters.js";
import { effectsOf } from "../../src/theory/sensitivity.js";
import { askew, FULL, stretchedX } from "../fixtures/airframe.js";
import { closedLoopPoles, spectralRadius } from "./closed-loop-poles.js";
import { sampledIntegrator } from "./plain-plants.js";

const I = 40 * I_UNIT;
const gains = (p: number, d: number, i = I) => ({ p: p * P_UNIT, i, d: d * D_UNIT });
const holding = { roll: gains(12, 1), pitch: gains(14, 1), yaw: gains(40, 0, 30 * I_UNIT) };
const RANGE = { from: 0.2 * P_UNIT, to: 150 * P_UNIT };

describe.each([
  ["stretched X", stretchedX],
  ["built askew", askew],
])("%s", (_, airframe) => {
  const craft = craftUnder(airframe, FULL);
  const trim = trimAt(craft, 0.5);

  test("P beyond the boundary and growth: as the poles move", () => {
    const pieces = axisPieces(craft, trim, "roll", holding);
    const growth = (p: number, d: number) => {
      const poles = closedLoopPoles(craft, trim, { ...holding, roll: { p, i: I, d } });
      return airframe.controller.rate * Math.log(spectralRadius(poles));
    };
    let found = 0;
    for (const d of [0, 1, 2, 3].map((units) => units * D_UNIT)) {
      for (const { p, perGrowth } of ultimateGain(pieces, d, I, RANGE)) {
        const h = 1e-4 * p;
        const slope = (2 * h) / (growth(p + h, d) - growth(p - h, d));
        expect(Math.abs(perGrowth / slope - 1)).toBeLessThan(1e-4);
        found++;
      }
    }
    expect(found).toBeGreaterThan(4);
  });
});

// z^3 - z^2 + (a + d) z - d at d = 0: z = (1 + sqrt(1 - 4a))/2, |z|^2 = a, growth ln(a)/2 a sample; at a = 1 da/dgrowth = 2.
test("integrator with one sample of delay: da per growth is 2", () => {
  const [{ p, perGrowth }] = ultimateGain(sampledIntegrator(1), 0, 0, { from: 0, to: 5 });
  expect(p).toBeCloseTo(1, 9);
  expect(perGrowth).toBeCloseTo(2, 6);
});

describe("what moves the boundary", async () => {
  const craft = craftUnder(stretchedX, FULL);
  const at = (airframe: Airframe) => {
    const pieces = axisPieces(craftUnder(airframe, FULL), trimAt(craftUnder(airframe, FULL), 0.5), "roll", holding);
    return ultimateGain(pieces, D_UNIT, stretchedX.controller.roll.i, RANGE)[0].p;
  };
  const place = {
    airframe: stretchedX,
    around: FULL,
    throttle: 0.5,
    axis: "roll" as const,
    holding,
    d: D_UNIT,
    p: at(stretchedX),
  };
  const effects = await effectsOf(place, 0.1);
  const effect = (key: string) => {
    const found = effects.find((one) => one.key === key);
    if (found === undefined) throw new Error(`no effect of ${key}`);
    return found;
  };

  test("every parameter is listed, the strongest first", () => {
    expect(effects.map(({ key }) => key).sort()).toEqual(
      parametersOf("roll", stretchedX)
        .map(({ key }) => key)
        .sort(),
    );
    const strength = ({ more, less }: (typeof effects)[number]) =>
      Math.max(Math.abs(Math.log(more ?? 0)), Math.abs(Math.log(less ?? 0)));
    for (let k = 1; k < effects.length; k++) expect(strength(effects[k])).toBeLessThanOrEqual(strength(effects[k - 1]));
  });

  // A rate integrator's gain is arm over inertia: the P the loop bears goes the other way. D and I are held, and the air
  // damps, so the law is met within the few per cent of a change of ten.
  test("more inertia bears more P, longer arms bear less, by about as much", () => {
    expect(effect("frame.inertia.xx").more).toBeGreaterThan(1.03);
    expect(effect("frame.inertia.xx").less).toBeLessThan(0.97);
    expect(effect("rotors.at").more).toBeLessThan(0.97);
  });

  test("the effect is that of the model with the parameter scaled", () => {
    const heavier = { ...stretchedX, inertia: { ...stretchedX.inertia, xx: 1.1 * stretchedX.inertia.xx } };
    expect(effect("frame.inertia.xx").more).toBeCloseTo(at(heavier) / place.p, 12);
    const hot = { ...stretchedX, motor: { ...stretchedX.motor, constant: stretchedX.motor.constant / 1.1 } };
    expect(effect("motor.kv").more).toBeCloseTo(at(hot) / place.p, 12);
  });

  // Mass alone neither turns nor pushes: at a given throttle it moves nothing.
  test("mass alone moves nothing at a given throttle", () => {
    expect(effect("frame.mass").more).toBeCloseTo(1, 12);
  });

  test("more latency bears less P: ten per cent of four periods is a fraction of one", () => {
    const { more, less } = effect("controller.latency");
    const late = (latency: number) => ({ ...stretchedX, controller: { ...stretchedX.controller, latency } });
    expect(more).toBeCloseTo(at(late(1.1e-3)) / place.p, 9);
    expect(less).toBeCloseTo(at(late(0.9e-3)) / place.p, 9);
    // Two fifths of what a whole period does, but for the bend of the curve.
    expect(Math.log(more ?? 0) / Math.log(at(late(1.25e-3)) / place.p)).toBeCloseTo(0.4, 1);
  });

  test("without latency there is none to move", async () => {
    const none = { ...stretchedX, controller: { ...stretchedX.controller, latency: 0 } };
    const found = await effectsOf({ ...place, airframe: none, p: at(none) }, 0.1);
    expect(found.some(({ key }) => key === "controller.latency")).toBe(false);
  });

  test("a boundary that is gone is said to be gone, and counts as the strongest", async () => {
    const near = { ...place, d: 4.3 * D_UNIT };
    const pieces = axisPieces(craft, trimAt(craft, 0.5), "roll", holding);
    const upper = ultimateGain(pieces, near.d, stretchedX.controller.roll.i, RANGE).filter(
      ({ perGrowth }) => perGrowth > 0,
    );
    const found = await effectsOf({ ...near, p: upper[0].p }, 0.3);
    expect(found[0].more === null || found[0].less === null).toBe(true);
  });
});
