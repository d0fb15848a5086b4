// Which tasks travel together. No outside source: a rule of our own.
import fc from "fast-check";
import { expect, test } from "vitest";
import { bundlesOf } from "../../src/run/bundles.js";

const tasksOf = (trials: readonly number[]) => trials.map((count) => ({ p: new Float64Array(count) }));

test("every task travels once, in order, however many trials and workers", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 200 }), { maxLength: 300 }),
      fc.integer({ min: 1, max: 16 }),
      (trials, workers) => {
        const bundles = bundlesOf(tasksOf(trials), workers);
        expect(bundles.flat()).toEqual(trials.map((_, place) => place));
        for (const bundle of bundles) {
          const sum = bundle.reduce((so, place) => so + (trials[place] ?? 0), 0);
          expect(bundle.length === 1 || (bundle.length <= 12 && sum <= 64)).toBe(true);
        }
      },
    ),
    { seed: 20261129, numRuns: 200 },
  );
});

test("a grid's tasks travel alone, a thousand single trials by the dozen, and few tasks reach every worker", () => {
  expect(bundlesOf(tasksOf(Array(50).fill(128)), 2)).toHaveLength(50);
  expect(bundlesOf(tasksOf(Array(1200).fill(1)), 2)).toHaveLength(100);
  expect(bundlesOf(tasksOf(Array(32).fill(1)), 4)).toHaveLength(32);
});
