// What a run is said to take. No outside source: figures of our own, from first-tune on two cores (2026-11-29): 37 s, and 673 to 742 MiB as memory is shared or not.
import { expect, test } from "vitest";
import { estimateOf } from "../../src/flow/estimate.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";

const plan = planFor(readAirframe("models/sandpiper-r1.yaml"), readSweep("sweeps/first-tune.yaml"));
const { uncertainty: _, ...exact } = plan.sweep;
const withoutDraws = { ...plan, sweep: exact };
const MIB = 2 ** 20;

test("first-tune is said to take about what it took, in time and memory", () => {
  const { seconds, memory } = estimateOf(plan, 2, 2);
  expect(seconds / 37).toBeGreaterThan(0.75);
  expect(seconds / 37).toBeLessThan(1.33);
  expect(memory / (700 * MIB)).toBeGreaterThan(0.85);
  expect(memory / (700 * MIB)).toBeLessThan(1.15);
});

test("draws take time and memory, and the more the longer; another worker shortens it where there is a core for it", () => {
  const [none, few, many] = [
    withoutDraws,
    plan,
    {
      ...plan,
      sweep: { ...plan.sweep, uncertainty: { ...plan.sweep.uncertainty, draws: 128 } as typeof plan.sweep.uncertainty },
    },
  ].map((one) => estimateOf(one as typeof plan, 2, 2));
  for (const figure of ["seconds", "memory"] as const) {
    expect(none?.[figure]).toBeLessThan(few?.[figure] ?? 0);
    expect(few?.[figure]).toBeLessThan(many?.[figure] ?? 0);
  }
  // A model without spreads has no draws, whatever the sweep asks for.
  const { spreads: __, ...sure } = plan.airframe;
  expect(estimateOf({ ...plan, airframe: sure }, 2, 2)).toEqual(none);
  expect(estimateOf(plan, 1, 2).seconds).toBeGreaterThan(few?.seconds ?? 0);
  expect(estimateOf(plan, 2, 1).seconds).toBe(estimateOf(plan, 1, 1).seconds);
});

test("shares of the grid and of the draws are parts of the whole, and leave the rest to who merges them", () => {
  const [grid, draws, all] = (["grid", "draws", "all"] as const).map((stage) => estimateOf(plan, 2, 2, stage)) as [
    ReturnType<typeof estimateOf>,
    ReturnType<typeof estimateOf>,
    ReturnType<typeof estimateOf>,
  ];
  expect([grid.trials, grid.steps]).toEqual([all.trials, all.steps]);
  expect(draws.trials).toBeGreaterThan(0);
  expect(grid.seconds + draws.seconds).toBeLessThan(all.seconds);
  expect(estimateOf(withoutDraws, 2, 2, "draws").trials).toBe(0);
});

test("trials are at most so many where a nudge may settle points, and just so many where the sweep asks for all", () => {
  expect(estimateOf(plan, 2, 2).atMost).toBe(true);
  const all = estimateOf({ ...plan, sweep: { ...plan.sweep, everyTrial: true } }, 2, 2);
  expect(all).toEqual({ ...estimateOf(plan, 2, 2), atMost: false });
});
