// S.S. Wilks 1941 (from memory): a further draw lies between the r-th of n from either end in (n + 1 - 2 r)/(n + 1) of cases,
// whatever the distribution.
import { expect, it } from "vitest";
import { exp, ln } from "../../src/base/elementary.js";
import { stream, uniform } from "../../src/base/random.js";
import { toleranceInterval } from "../../src/base/tolerance-interval.js";

const rising = (count: number): number[] => Array.from({ length: count }, (_, k) => k + 1);

it.each([
  [64, 3, 62, 32.5],
  [19, 1, 19, 10],
  [99, 5, 95, 50],
  [1024, 51, 974, 512.5],
])("of %d lie from the %s. to the %s.", (count, low, high, middle) => {
  expect(toleranceInterval(rising(count).reverse())).toEqual({ low, middle, high });
});

it("holds nine of ten further draws, of an even law and of a skewed one", () => {
  const laws = [(share: number) => share, (share: number) => exp(-3 * ln(1 - share))];
  const source = stream("held between");
  for (const law of laws) {
    let held = 0;
    const [sets, further] = [400, 50];
    for (let set = 0; set < sets; set++) {
      const between = toleranceInterval(Array.from({ length: 64 }, () => law(uniform(source))));
      if (between === null) throw new Error("none");
      for (let k = 0; k < further; k++) {
        const value = law(uniform(source));
        if (value >= between.low && value <= between.high) held++;
      }
    }
    expect(held / (sets * further)).toBeCloseTo(59 / 65, 1.5);
    expect(held / (sets * further)).toBeGreaterThan(0.9);
  }
});

it("takes an unknown value for anything", () => {
  const known = rising(62);
  expect(toleranceInterval([...known, null, null])).toEqual({ low: 1, middle: 31.5, high: 62 });
  expect(toleranceInterval([...rising(61), null, null, null])).toBe(null);
});

it("says nothing of fewer than 19", () => {
  expect(toleranceInterval(rising(18))).toBe(null);
  expect(toleranceInterval([])).toBe(null);
});
