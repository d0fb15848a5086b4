// Scale: what is held while draws are judged does not grow with their number. No outside source: a bound of our own.
import { expect, test } from "vitest";
import { MEASURE_IDS } from "../../src/base/measures.js";
import type { DrawTheory } from "../../src/confidence/draw-theory.js";
import { safeDraws } from "../../src/confidence/safe-draws.js";
import { type TrialRequest, type TrialTable, WIDTH } from "../../src/map/trials.js";
import type { Limits } from "../../src/map/verdict.js";

const SIDE = 80;
const VARIANTS = [0, 1, 2, 3, 4];
const line = Array.from({ length: SIDE }, (_, k) => 1 + k);
const points = Array.from({ length: SIDE * SIDE }, (_, point) => point);
const unlimited = Object.fromEntries(MEASURE_IDS.map((id) => [id, null])) as Limits;
/** Nothing shown, everything dies out. */
const comfortable = (trials: number): TrialTable => ({
  values: new Float64Array(trials * WIDTH),
  absent: new Uint8Array(trials * WIDTH).fill(1),
  outcome: new Uint8Array(trials),
});

test.each([4, 16])("%d draws are asked for in parts of the same size, and every trial once", async (draws) => {
  const parts: (readonly TrialRequest[])[] = [];
  const always = { haveMargins: (gains: readonly unknown[]) => new Uint8Array(gains.length).fill(1) };
  const { counts, trials } = await safeDraws({
    lines: { p: line, d: line },
    grid: new Map(VARIANTS.map((variant) => [variant, comfortable(points.length)])),
    limits: unlimited,
    candidates: { points, deciding: new Map(points.map((point) => [point, VARIANTS])) },
    theory: Array.from({ length: draws }, () => always as unknown as DrawTheory),
    ask: async (requests) => {
      parts.push(requests);
      return comfortable(requests.length);
    },
    yieldIfDue: async () => {},
  });
  expect(Math.max(...parts.map(({ length }) => length))).toBe(4 * SIDE * SIDE); // a draw, under the first four variants
  expect(trials).toBe(draws * SIDE * SIDE * VARIANTS.length);
  const asked = new Set(parts.flat().map(({ draw, variant, p, d }) => `${draw} ${variant} ${p} ${d}`));
  expect(asked.size).toBe(trials);
  expect(counts.every((count) => count === draws)).toBe(true);
});
