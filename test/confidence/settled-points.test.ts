// Trials that are left out because a nudge settles their point are none that the draws would read.
import { expect, it } from "vitest";
import { stream, uniform } from "../../src/base/random.js";
import { candidatesOf, TRIALS_READ_AROUND } from "../../src/confidence/candidates.js";
import { overWholeGrid, settledPoints } from "../../src/map/settled.js";
import type { TrialTable } from "../../src/map/trials.js";
import type { Variant } from "../../src/plan/plan.js";
import { defaultLimits, tableOf } from "../map/tables.js";

const P = Array.from({ length: 24 }, (_, k) => 1.12 ** k);
const D = [0, ...Array.from({ length: 11 }, (_, k) => 1.25 ** k)];
const POINTS = D.flatMap((d) => P.map((p) => ({ p, d })));
const stop = { script: { kind: "stop" } } as Variant;

/** A nudge that sustains beyond a ragged boundary, and three stops whose bounce-back and end are chance. */
function chanceGrid(seed: number): Map<number, TrialTable> {
  const source = stream(seed);
  const random = () => uniform(source);
  const nudge = tableOf(POINTS.map(() => ({ growth: 0 })));
  nudge.outcome.set(POINTS.map(({ p, d }) => (p > 1.6 + 0.4 * d + random() ? 1 : 0)));
  const stops = [1, 2, 3].map((variant) => {
    const table = tableOf(POINTS.map(() => ({ overshoot: 24 * random() })));
    table.outcome.set(POINTS.map(({ p }) => (random() < p / 12 ? 1 : 0)));
    return [variant, table] as const;
  });
  return new Map([[0, nudge], ...stops]);
}

/** The same grid without what the nudge settles within this reach. */
function leftOut(grid: ReadonlyMap<number, TrialTable>, reach?: readonly number[]): Map<number, TrialTable> {
  const settled = settledPoints({ p: P, d: D }, [grid.get(0) as TrialTable], reach);
  const rows = POINTS.flatMap((_, point) => (settled[point] === 1 ? [] : [point]));
  const width = (grid.get(0) as TrialTable).values.length / POINTS.length;
  const some = ({ values, absent, outcome }: TrialTable): TrialTable => ({
    values: Float64Array.from(rows.flatMap((row) => [...values.subarray(row * width, (row + 1) * width)])),
    absent: Uint8Array.from(rows.flatMap((row) => [...absent.subarray(row * width, (row + 1) * width)])),
    outcome: Uint8Array.from(rows, (row) => outcome[row]),
  });
  return new Map(
    [...grid].map(([variant, table]) => [variant, variant === 0 ? table : overWholeGrid(stop, settled, some(table))]),
  );
}

const candidates = (grid: ReadonlyMap<number, TrialTable>) => candidatesOf({ p: P, d: D }, grid, defaultLimits);
const SEEDS = Array.from({ length: 40 }, (_, seed) => seed);

it("the same points and variants may decide, whatever else settled ground would have shown", () => {
  for (const seed of SEEDS) {
    const grid = chanceGrid(seed);
    const some = leftOut(grid, TRIALS_READ_AROUND);
    expect(some.get(1)?.outcome).toContain(4);
    expect(candidates(some)).toEqual(candidates(grid));
  }
});

it("a rim of neighbours alone would not do", () => {
  const differs = SEEDS.filter((seed) => {
    const grid = chanceGrid(seed);
    const [whole, some] = [candidates(grid), candidates(leftOut(grid))];
    return [...whole.deciding].some(([point, deciding]) => deciding.join() !== some.deciding.get(point)?.join());
  });
  expect(differs.length).toBeGreaterThan(0);
});
