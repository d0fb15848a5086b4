// The pass over a loop's frequencies in lanes: the same marks as its own text lane by lane and as the plain search for
// crossings, and the margins read from them against the exact ones.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { craftUnder } from "../../src/airframe/craft.js";
import { trimAt } from "../../src/airframe/trim.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { marksFunction, PIECE_COUNTS } from "../../src/base/vector-layout.js";
import { axisPieces, coarsePieces } from "../../src/theory/axis-pieces.js";
import { realCrossings, unitCrossings } from "../../src/theory/crossing.js";
import * as m from "../../src/theory/lane-memory.js";
import { LANES, lanePlaces, markPlainly, translatedMarks } from "../../src/theory/lanes.js";
import { marginsOf, unstablePoles } from "../../src/theory/margins.js";
import { marksOf, roughMargins } from "../../src/theory/marks.js";
import { openLoop } from "../../src/theory/pieces.js";
import { haveMargins, keepMargins } from "../../src/theory/wanted-margins.js";
import { askew, FULL, stretchedX } from "../fixtures/airframe.js";

const translated = translatedMarks();
if (translated === null) throw new Error("no lanes for theory: npm run build");

const CORNERS = [0, -0, 1, -1, 1e-300, 1e300, Number.POSITIVE_INFINITY, Number.NaN];

test.each([...PIECE_COUNTS])(
  `${marksFunction(0).slice(0, -1)}%i: every lane has the marks it has alone, whatever the numbers`,
  (count) => {
    const blocks = 2;
    const length = 2 * count * (m.BLOCK * blocks + 1);
    const value = fc.oneof({ weight: 9, arbitrary: fc.double({ min: -2, max: 2 }) }, fc.constantFrom(...CORNERS));
    const filled = (size: number) => fc.array(value, { minLength: size, maxLength: size });
    let marked = 0;
    fc.assert(
      fc.property(filled(length), filled(count * LANES), (values, factors) => {
        const pieces = { count, blocks, values: Float64Array.from(values) };
        const [one, other] = [0, 1].map(() => {
          const lanes = new Float64Array(lanePlaces(pieces) * LANES);
          lanes.set(factors);
          return lanes;
        });
        translated(pieces, one);
        markPlainly(pieces, other);
        expect(one).toEqual(other);
        marked += one.subarray(m.MARKS * LANES).filter((mark) => mark !== 0).length;
      }),
      { seed: 5, numRuns: 60 },
    );
    expect(marked).toBeGreaterThan(1000);
  },
);

const I = 40 * I_UNIT;
const gains = (p: number, d: number) => ({ p: p * P_UNIT, i: I, d: d * D_UNIT });
const holding = { roll: gains(12, 1), pitch: gains(14, 1), yaw: { p: 40 * P_UNIT, i: 30 * I_UNIT, d: 0 } };
const GRID = Array.from({ length: 40 }, (_, k) => 1.6 + 2.3 * k).flatMap((p) =>
  Array.from({ length: 9 }, (_, k) => gains(p, 0.7 * k)),
);
const ANY = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };

describe.each([
  ["stretched X", stretchedX],
  ["built askew", askew],
])("%s", (_, airframe) => {
  const craft = craftUnder(airframe, FULL);
  const trim = trimAt(craft, 0.5);
  const coarse = coarsePieces(craft, trim)("roll", holding);

  test.each([
    ["coarse", coarse],
    ["fine", axisPieces(craft, trim, "roll", holding)],
  ])("marks stand where the %s loop's crossings are found", (_, pieces) => {
    const { frequencies } = pieces;
    const stepOf = ({ frequency }: { readonly frequency: number }) => frequencies.findIndex((w) => w > frequency) - 1;
    let found = 0;
    for (const [at, { axis, circle }] of marksOf(pieces, GRID).entries()) {
      const loop = openLoop(pieces, GRID[at]);
      const inside = axis.filter((k) => k < frequencies.length - 2);
      expect(inside).toEqual(realCrossings(frequencies, loop, true, ANY).map(stepOf));
      expect(circle).toEqual(unitCrossings(frequencies, loop).map(stepOf));
      found += inside.length + circle.length;
    }
    expect(found).toBeGreaterThan(3 * GRID.length);
  });

  test("straight lines keep to the errors that are stated of the coarse grid", () => {
    const decibels = (ratio: number) => 20 * Math.log10(ratio);
    let compared = 0;
    for (const [at, { unstable, below, above, nearest, bend }] of roughMargins(coarse, GRID).entries()) {
      const exact = marginsOf(coarse, GRID[at]);
      const least = Math.min(exact.gainUp ?? Infinity, exact.gainDown ?? Infinity);
      if (exact.stable && least < 0.05) continue; // beside the boundary they may differ
      if (unstable !== 0) {
        expect(unstablePoles(coarse, GRID[at])).toBe(unstable);
        continue;
      }
      expect(exact.stable).toBe(true);
      compared++;
      if (exact.gainUp !== null) expect(Math.abs(-decibels(below) - exact.gainUp)).toBeLessThan(0.05);
      if (exact.gainDown !== null) expect(Math.abs(decibels(above) - exact.gainDown)).toBeLessThan(0.05);
      if (exact.phase !== null) {
        const phase = (Math.PI / 180) * exact.phase;
        expect(Math.abs(nearest + Math.cos(phase))).toBeLessThan(0.02);
        expect(Math.abs(nearest + Math.cos(phase))).toBeLessThan(0.25 * bend + 1e-4);
        if (exact.phase > 40) expect(Math.abs(Math.acos(-nearest) - phase)).toBeLessThan((0.3 * Math.PI) / 180);
      }
    }
    expect(compared).toBeGreaterThan(30);
  });

  test("kept margins are decided as marginsOf has them, and in every loop", () => {
    const pitch = coarsePieces(craft, trim)("pitch", holding);
    let [kept, differ] = [0, 0];
    for (const wanted of [
      { gain: 6, phase: Math.PI / 4 },
      { gain: 0.3, phase: 0 },
      { gain: 3, phase: 0.6 },
    ]) {
      const rough = haveMargins([coarse, pitch], GRID, wanted);
      keepMargins([coarse, pitch], GRID, wanted).forEach((keeps, at) => {
        const exact = [coarse, pitch].every((loop) => {
          const { stable, gainUp, gainDown, phase } = marginsOf(loop, GRID[at]);
          const enough = [gainUp, gainDown].every((margin) => margin === null || margin >= wanted.gain);
          return stable && enough && (phase === null || phase >= (180 / Math.PI) * wanted.phase);
        });
        expect(keeps === 1).toBe(exact);
        kept += keeps;
        differ += keeps === rough[at] ? 0 : 1;
      });
    }
    expect(kept).toBeGreaterThan(20);
    expect(differ).toBeLessThan(0.02 * 3 * GRID.length);
  });
});
