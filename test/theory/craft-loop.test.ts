// The loop of a whole craft: frequency responses against the poles of the closed loop, an independent route.
import { describe, expect, test } from "vitest";
import { craftUnder } from "../../src/airframe/craft.js";
import { trimAt } from "../../src/airframe/trim.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { stableIntervals, ultimateGain } from "../../src/theory/boundary.js";
import { controllerPieces } from "../../src/theory/controller.js";
import { frequencyGrid } from "../../src/theory/frequency.js";
import { isStable, marginsOf } from "../../src/theory/margins.js";
import { loopPieces } from "../../src/theory/pieces.js";
import { plantResponse } from "../../src/theory/plant.js";
import { askew, FULL, stretchedX } from "../fixtures/airframe.js";
import { closedLoopPoles, openLoopUnstable, spectralRadius } from "./closed-loop-poles.js";

const I = 40 * I_UNIT;
const gains = (p: number, d: number, i = I) => ({ p: p * P_UNIT, i, d: d * D_UNIT });
const holding = { roll: gains(12, 1), pitch: gains(14, 1), yaw: gains(40, 0, 30 * I_UNIT) };
const RANGE = { from: 0.2 * P_UNIT, to: 150 * P_UNIT };

describe.each([
  ["stretched X", stretchedX],
  ["built askew", askew],
  ["built askew, late by 0.4 periods", { ...askew, controller: { ...askew.controller, latency: 1e-4 } }],
  ["late by 3.7 periods", { ...stretchedX, controller: { ...stretchedX.controller, latency: 0.925e-3 } }],
])("%s", (_, airframe) => {
  const craft = craftUnder(airframe, FULL);
  const trim = trimAt(craft, 0.5);
  const radius = (axis: "roll" | "pitch", p: number, d: number) =>
    spectralRadius(closedLoopPoles(craft, trim, { ...holding, [axis]: { p, i: I, d } }));

  describe.each(["roll", "pitch"] as const)("%s", (axis) => {
    const pieces = axisPieces(craft, trim, axis, holding);

    test("at every ultimate gain a pole pair stands on the unit circle", () => {
      let found = 0;
      for (const d of [0, 0.5, 1, 2, 3, 4].map((units) => units * D_UNIT)) {
        for (const { p } of ultimateGain(pieces, d, I, RANGE)) {
          found++;
          expect(Math.abs(radius(axis, p, d) - 1)).toBeLessThan(1e-9);
        }
      }
      expect(found).toBeGreaterThan(5);
    });

    test("stable by encirclements is stable by poles", () => {
      const counts = { stable: 0, unstable: 0 };
      for (const p of [0.1, 0.5, 2, 10, 20, 35, 60, 100]) {
        for (const d of [0, 0.3, 1, 2, 3.5, 6]) {
          const stable = isStable(pieces, gains(p, d));
          expect(stable).toBe(radius(axis, p * P_UNIT, d * D_UNIT) < 1);
          counts[stable ? "stable" : "unstable"]++;
        }
      }
      expect(Math.min(counts.stable, counts.unstable)).toBeGreaterThan(10);
    });

    test("the margins are where the scaled loop gives out", () => {
      const { gainUp, gainDown } = marginsOf(pieces, gains(12, 1));
      const scaled = (decibels: number) => {
        const factor = 10 ** (decibels / 20);
        const of = gains(12, 1);
        return spectralRadius(
          closedLoopPoles(craft, trim, { ...holding, [axis]: { p: factor * of.p, i: factor * I, d: factor * of.d } }),
        );
      };
      expect(Math.abs(scaled(gainUp ?? 0) - 1)).toBeLessThan(1e-9);
      if (gainDown !== null) expect(Math.abs(scaled(-gainDown) - 1)).toBeLessThan(1e-9);
    });

    test("600 frequencies give the margins of 6000", () => {
      const fine = frequencyGrid(0.5, Math.PI * airframe.controller.rate, 6000);
      const plant = plantResponse(craft, trim, axis, holding)(fine);
      const many = loopPieces(fine, plant, controllerPieces(airframe, trim, fine), {
        closes: true,
      });
      let [level, phase] = [0, 0];
      for (const p of [1, 5, 12, 25]) {
        for (const d of [0, 1, 2]) {
          const [few, wanted] = [marginsOf(pieces, gains(p, d)), marginsOf(many, gains(p, d))];
          expect(few.stable).toBe(true);
          level = Math.max(level, Math.abs((few.gainUp ?? 0) - (wanted.gainUp ?? 0)));
          level = Math.max(level, Math.abs((few.gainDown ?? 0) - (wanted.gainDown ?? 0)));
          phase = Math.max(phase, Math.abs((few.phase ?? 0) - (wanted.phase ?? 0)));
        }
      }
      expect(level).toBeLessThan(1e-6);
      expect(phase).toBeLessThan(1e-6);
    });
  });
});

describe("what the loop of a craft shows", () => {
  const craft = craftUnder(stretchedX, FULL);
  const trim = trimAt(craft, 0.5);

  test("D first widens the range of P, then closes it", () => {
    const pieces = axisPieces(craft, trim, "roll", holding);
    const upper = [0, 1, 2, 3, 4, 6].map((d) => stableIntervals(pieces, d * D_UNIT, I, RANGE).at(-1)?.to ?? 0);
    expect(upper[1]).toBeGreaterThan(1.5 * upper[0]);
    expect(upper[3]).toBeLessThan(upper[1]);
    expect(upper[5]).toBe(0);
  });

  test("too little P against the integral is a boundary as well, and a gain margin downward", () => {
    const pieces = axisPieces(craft, trim, "roll", holding);
    const [interval] = stableIntervals(pieces, 0, I, RANGE);
    expect(interval.from).toBeGreaterThan(RANGE.from);
    expect(marginsOf(pieces, { p: 1.1 * interval.from, i: I, d: 0 }).stable).toBe(true);
    expect(marginsOf(pieces, { p: 0.9 * interval.from, i: I, d: 0 }).stable).toBe(false);
  });

  test("yaw has no D: a D given for it changes nothing", () => {
    const plain = axisPieces(craftUnder(askew, FULL), trimAt(craftUnder(askew, FULL), 0.5), "roll", holding);
    const given = { ...holding, yaw: { ...holding.yaw, d: 5 * D_UNIT } };
    const same = axisPieces(craftUnder(askew, FULL), trimAt(craftUnder(askew, FULL), 0.5), "roll", given);
    expect(same.a).toEqual(plain.a);
  });

  test("other axes that are themselves unstable leave no stable gain", () => {
    const wild = { ...holding, pitch: gains(200, 0) };
    expect(openLoopUnstable(craft, trim, "roll", wild)).toBe(2);
    expect(openLoopUnstable(craft, trim, "roll", holding)).toBe(0);
    expect(isStable(axisPieces(craft, trim, "roll", wild), gains(12, 1))).toBe(false);
  });
});
