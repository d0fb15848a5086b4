// Propellers estimated from published ones. The spreads are honest if each propeller, left out, lies within its own as
// often as it says, no less and no more.
import { describe, expect, it } from "vitest";
import { figureOfMerit } from "../../src/airframe/rotor.js";
import {
  propellerInertia,
  propellerMass,
  staticCoefficients,
  zeroThrustAdvance,
} from "../../src/estimate/propeller.js";
import { ADVANCE_RUNS, PROPELLER_ROWS } from "../../src/estimate/propeller-rows.js";
import { binomialBounds, leftOut, within } from "./leave-one-out.js";

const COUNT = 2 * PROPELLER_ROWS.length;

describe("each published propeller left out and estimated", () => {
  it("lies within its spread 95 of 100 times", () => {
    const [least, most] = binomialBounds(COUNT, 0.95);
    expect(most).toBeLessThan(COUNT); // so that spreads that hold every one of them fail
    expect(within(1)).toBeGreaterThanOrEqual(least);
    expect(within(1)).toBeLessThanOrEqual(most);
  });

  it("lies within half of it two of three times, as a normal error does", () => {
    const [least, most] = binomialBounds(COUNT, 0.6827);
    expect(within(0.5)).toBeGreaterThanOrEqual(least);
    expect(within(0.5)).toBeLessThanOrEqual(most);
  });

  it("would not, were the spreads half or twice as wide", () => {
    const [least, most] = binomialBounds(COUNT, 0.6827);
    expect(within(0.25)).toBeLessThan(least);
    expect(within(1)).toBeGreaterThan(most);
  });

  it("is left out with the same blade on other hubs", () => {
    expect(new Set(PROPELLER_ROWS.map(({ blade }) => blade)).size).toBe(PROPELLER_ROWS.length - 3);
    expect(leftOut()).toHaveLength(40);
  });
});

describe("what the estimates follow", () => {
  const at = (inches: number, pitchInches: number, blades = 2) => staticCoefficients({ inches, pitchInches, blades });

  it("pitch raises both, and power more; a third blade raises both", () => {
    const [flat, steep, three] = [at(5, 3), at(5, 4.5), at(5, 3, 3)];
    expect(steep.ct.value / flat.ct.value).toBeGreaterThan(1.2);
    expect(steep.cp.value / flat.cp.value).toBeGreaterThan(steep.ct.value / flat.ct.value);
    expect(three.ct.value).toBeGreaterThan(1.05 * flat.ct.value);
    expect(three.cp.value).toBeGreaterThan(1.05 * flat.cp.value);
  });

  it("makes a figure of merit that measured propellers have, over all usual sizes", () => {
    for (const inches of [2, 3, 5, 7, 10, 13])
      for (const ratio of [0.3, 0.5, 0.75, 1])
        for (const blades of [2, 3, 4]) {
          const { ct, cp } = at(inches, ratio * inches, blades);
          const merit = figureOfMerit(ct.value, cp.value);
          expect([inches, ratio, blades, merit > 0.2 && merit < 0.85]).toEqual([inches, ratio, blades, true]);
        }
  });

  it("is less sure of what no published propeller is like", () => {
    expect(at(13, 13, 6).ct.spread).toBeGreaterThan(1.3 * at(5, 3.5).ct.spread);
  });
});

describe("the advance ratio without thrust", () => {
  it("holds both measured crossings and both slopes near hover within its spread", () => {
    for (const { inches, pitchInches, vanishes, near, ctStatic } of ADVANCE_RUNS) {
      const { value, spread } = zeroThrustAdvance({ inches, pitchInches });
      const fall =
        near.reduce((sum, [j, ct]) => sum + j * (ctStatic - ct), 0) / near.reduce((sum, [j]) => sum + j * j, 0);
      for (const one of [vanishes, ctStatic / fall])
        expect([one, Math.abs(Math.log(one / value)) < Math.log(1 + spread)]).toEqual([one, true]);
    }
  });
});

describe("weight and inertia of a propeller", () => {
  // The club's propellers: invented, weighed as common for their size.
  it.each([
    [3, 2, 0.9e-3, 3.9e-7],
    [5, 2, 3.5e-3, 4.2e-6],
    [7, 2, 7e-3, 1.65e-5],
    [5, 3, 4.6e-3, 5.0e-6],
  ])("%f inch, %f blades: the shipped models' lie within", (inches, blades, weighed, inertia) => {
    const size = { inches, pitchInches: 0.7 * inches, blades };
    const mass = propellerMass(size);
    expect(Math.abs(Math.log(weighed / mass.value))).toBeLessThan(Math.log(1 + mass.spread));
    const byWeight = propellerInertia(size, { value: weighed, spread: 0 });
    expect(Math.abs(Math.log(inertia / byWeight.value))).toBeLessThan(Math.log(1 + byWeight.spread));
    // no propeller is heavier at its tips than a rod
    expect(byWeight.value * (1 + byWeight.spread)).toBeLessThan((weighed * (0.0254 * inches) ** 2) / 12);
  });
});
