// Quantiles as NIST and Abramowitz & Stegun tabulate them.
import { expect, it } from "vitest";
import { normalQuantile } from "../../src/base/normal.js";

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
