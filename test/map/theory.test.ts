// Theory's part of the map: lines that lie on the boundary, ranges per D, thinning, sensitivity.

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { simplify } from "../../src/base/simplify.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { attitudeFollowing } from "../../src/map/attitude.js";
import { gridTheory } from "../../src/map/grid-theory.js";
import { axisTheory } from "../../src/map/margins.js";
import { theoryBoundary } from "../../src/map/theory.js";
import type { Plan } from "../../src/plan/plan.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { isStable } from "../../src/theory/margins.js";
import { steppedPlant } from "../../src/theory/stepped.js";
import { FULL, nudge, planOf, stretchedX, TIRED } from "../fixtures/airframe.js";
import { bothAxes } from "../fixtures/both-axes.js";

const steps = (from: number, to: number, count: number, unit: number) =>
  Array.from({ length: count }, (_, k) => (from + ((to - from) * k) / (count - 1)) * unit);
const bare = planOf(stretchedX, nudge(1), [0.5, 0.8], [FULL, TIRED]);
const grid = { p: steps(4, 64, 13, P_UNIT), d: steps(0, 5, 6, D_UNIT) };
const plan: Plan = { ...bare, sweep: { ...bare.sweep, grid: bothAxes(grid) } };
const variants = plan.variants.filter(({ axis }) => axis === "roll");
const theoryOf = (one: Plan) => gridTheory(one, "roll", () => Promise.resolve());
const atOnce = async () => {};
const found = await theoryBoundary(
  plan,
  "roll",
  { ...(await theoryOf(plan)), boundaries: [], start: { p: 20 * P_UNIT, d: D_UNIT }, nudgeDecay: 0 },
  atOnce,
);
const { i } = stretchedX.controller.roll;
const holding = { ...plan.holding, yaw: stretchedX.controller.yaw };
const piecesAt = (throttle: number, condition: string) => {
  const variant = variants.find(
    (one) =>
      Math.abs(100 * one.throttle - throttle) < 1e-6 && plan.conditions[one.condition].condition.name === condition,
  );
  if (variant === undefined) throw new Error("no such loop");
  return axisPieces(plan.conditions[variant.condition].craft, variant.trim, "roll", holding, steppedPlant);
};

describe("theory in the map", () => {
  it("has a loop for every throttle and pack", () => {
    expect(found.loops.map(({ throttle, condition }) => `${throttle} ${condition}`)).toEqual([
      "50 full",
      "50 tired",
      "80 full",
      "80 tired",
    ]);
    expect(found.agreement).toBe(null);
  });

  it("draws lines that part stable from unstable, inside the swept range", () => {
    for (const { throttle, condition, curve } of found.loops) {
      const pieces = piecesAt(throttle, condition);
      expect(curve.length).toBeGreaterThan(0);
      for (const [d, p, hertz] of curve.flat()) {
        const at = (factor: number) => isStable(pieces, { p: p * factor * P_UNIT, d: d * D_UNIT, i });
        expect(at(0.997)).not.toBe(at(1.003));
        expect(p).toBeLessThanOrEqual(64);
        expect(d).toBeLessThanOrEqual(5);
        expect(hertz).toBeGreaterThan(0.5);
      }
      expect(curve.flat().length).toBeLessThan(80);
    }
  });

  it("gives the stable ranges at every D of the grid", () => {
    for (const { throttle, condition, perD } of found.loops) {
      expect(perD).toHaveLength(grid.d.length);
      const pieces = piecesAt(throttle, condition);
      perD.forEach((ranges, row) => {
        for (const [from, to] of ranges) {
          const middle = 0.5 * ((from ?? 4) + (to ?? 64));
          expect(isStable(pieces, { p: middle * P_UNIT, d: grid.d[row], i })).toBe(true);
        }
      });
    }
  });

  it("names three parameters at the starting tune's D, of the loop that gives out first", () => {
    expect(found.sensitivity).toMatchObject({ d: 1, throttle: 80, condition: "full" });
    expect(found.sensitivity?.effects).toHaveLength(3);
    expect(found.sensitivity?.effects[0].key).toBe("propeller.diameter");
  });

  it("stays small", () => {
    expect(JSON.stringify(found).length).toBeLessThan(8000);
  });
});

describe("a thinned line", () => {
  const place = fc.tuple(fc.double({ min: -50, max: 50, noNaN: true }), fc.double({ min: -50, max: 50, noNaN: true }));

  it("keeps both ends, only points of the line, and is nowhere further off than the tolerance", () => {
    fc.assert(
      fc.property(fc.array(place, { minLength: 2, maxLength: 40 }), (line) => {
        const simplified = simplify(line, [1, 2]);
        expect(simplified[0]).toBe(line[0]);
        expect(simplified.at(-1)).toBe(line.at(-1));
        let from = 0;
        for (let k = 0; k + 1 < simplified.length; k++) {
          const to = line.indexOf(simplified[k + 1], from + 1);
          for (let n = from + 1; n < to; n++)
            expect(off(line[n], simplified[k], simplified[k + 1])).toBeLessThanOrEqual(1 + 1e-9);
          from = to;
        }
      }),
      { seed: 5 },
    );
  });

  it("leaves a straight line its ends and keeps a corner", () => {
    const straight = [0, 1, 2, 3].map((x): [number, number] => [x, 2 * x]);
    expect(simplify(straight, [0.1, 0.1])).toEqual([straight[0], straight[3]]);
    expect(simplify([...straight, [4, 0]], [0.1, 0.1])).toEqual([straight[0], straight[3], [4, 0]]);
  });
});

/** Distance from a stretch, x counted in ones and y in twos. */
function off([x, y]: readonly number[], [a, b]: readonly number[], [c, d]: readonly number[]): number {
  const [u, v, p, q] = [c - a, (d - b) / 2, x - a, (y - b) / 2];
  const along = u * u + v * v === 0 ? 0 : Math.max(0, Math.min(1, (p * u + q * v) / (u * u + v * v)));
  return Math.hypot(p - along * u, q - along * v);
}

describe("the attitude at the starting tune", () => {
  const theory = axisTheory(plan, "roll", variants);
  const gains = { p: 20 * P_UNIT, i, d: D_UNIT };

  it("is that of the slowest loop and of the latest", () => {
    const each = theory.loops.map((loop) => attitudeFollowing({ loops: [loop] }, gains));
    const all = (key: "bandwidth" | "phaseDelay") => each.map((one) => one?.[key] ?? Number.NaN);
    expect(new Set(all("bandwidth")).size).toBeGreaterThan(1);
    expect(found.attitude).toEqual({
      bandwidth: Math.min(...all("bandwidth")),
      phaseDelay: Math.max(...all("phaseDelay")),
    });
  });

  it("follows a quicker stick with more P, and is not there without a starting tune", async () => {
    const weak = attitudeFollowing(theory, { ...gains, p: 10 * P_UNIT });
    expect(found.attitude?.bandwidth).toBeGreaterThan(weak?.bandwidth ?? Number.NaN);
    const input = { ...(await theoryOf(plan)), boundaries: [], start: null, nudgeDecay: 0 };
    expect((await theoryBoundary(plan, "roll", input, atOnce)).attitude).toBe(null);
  });
});
