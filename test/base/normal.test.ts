// Quantiles as NIST and Abramowitz & Stegun tabulate them.
import { expect, it } from "vitest";
import { normalQuantile, normalShareBelow } from "../../src/base/normal.js";

it.each([
  [0.5, 0],
  [0.75, 0.6744897502],
  [0.9, 1.2815515655],
  [0.95, 1.644853627],
  [0.975, 1.9599639845],
  [0.99, 2.326347874],
  [0.995, 2.5758293035],
  [0.999, 3.0902323062],
  [0.9999, 3.7190164855],
  [0.9772498681, 2],
  [0.998650102, 3],
])("the quantile of %s is %s", (below, z) => {
  expect(normalQuantile(below)).toBeCloseTo(z, 7);
  if (below !== 0.5) expect(normalQuantile(1 - below)).toBeCloseTo(-z, 7);
});

it("meets a tail of 1e-12", () => {
  // recomputed with 30 digits: z of 1e-12
  expect(normalQuantile(1e-12)).toBeCloseTo(-7.034483825, 8);
});

it("gives back the share that a quantile was asked for", () => {
  for (const below of [1e-12, 1e-5, 0.02, 0.3, 0.5, 0.75, 0.9, 0.999, 1 - 1e-9])
    expect(Math.abs(normalShareBelow(normalQuantile(below)) - below)).toBeLessThan(4e-15);
});

it.each([
  // Abramowitz & Stegun 1964, table 26.1
  [1, 0.841344746068543],
  [2, 0.977249868051821],
  [3, 0.99865010196837],
  [-1.5, 1 - 0.933192798731142],
])("the share below %s is %s", (z, share) => {
  expect(normalShareBelow(z)).toBeCloseTo(share, 14);
  expect([normalShareBelow(-50), normalShareBelow(50)]).toEqual([0, 1]);
});
