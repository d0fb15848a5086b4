// Latency in control periods and in physics steps.
import { describe, expect, test } from "vitest";
import { delayOf, takeoverOf } from "../../src/airframe/latency.js";

const delay = (latency: number, rate: number) => delayOf({ controller: { latency, rate } });

test("whole periods are whole, whatever doubles make of the product", () => {
  for (const rate of [500, 1000, 3200, 4000, 8000, 10_000, 32_000]) {
    for (let periods = 0; periods <= 0.02 * rate; periods++)
      expect(delay(periods / rate, rate)).toEqual({ steps: periods, newerShare: 0 });
  }
  expect(3e-4 * 10_000).toBeLessThan(3);
  expect(delay(3e-4, 10_000)).toEqual({ steps: 3, newerShare: 0 });
});

test.each([
  [0.1, 1, 0.9],
  [2.25, 3, 0.75],
  [3.999, 4, 0.001],
])(
  "%f periods: the older command is %i late, the newer one takes over for the last %f of a period",
  (late, steps, share) => {
    const found = delay(late / 4000, 4000);
    expect(found.steps).toBe(steps);
    expect(found.newerShare).toBeCloseTo(share, 12);
  },
);

describe.each([1, 2, 3, 8])("%i physics steps a period", (substeps) => {
  test("under the older command as long as latency says, in whole steps and one share", () => {
    for (const periods of [0, 0.001, 0.125, 0.3, 0.5, 0.7, 0.999, 1, 2.5]) {
      const late = delay(periods, 1);
      const { olderSteps, newerShare } = takeoverOf(late, substeps);
      const older = olderSteps === substeps ? substeps : olderSteps + 1 - newerShare;
      expect(older / substeps).toBeCloseTo(1 - late.newerShare, 12);
      expect(newerShare).toBeGreaterThanOrEqual(0);
      expect(newerShare).toBeLessThanOrEqual(1);
    }
    expect(takeoverOf(delay(2, 1), substeps)).toEqual({ olderSteps: substeps, newerShare: 0 });
  });
});
