// A grid that follows the response: dense where it turns sharply, as it was where it does not.
import { expect, test } from "vitest";
import { between } from "../../src/theory/crossing.js";
import { frequencyGrid, sampled } from "../../src/theory/frequency.js";
import { refined } from "../../src/theory/refine.js";
import { allPole } from "./plain-plants.js";

const grid = frequencyGrid(1, 1000, 300);
const error = (plant: (w: number) => readonly [number, number]) => {
  const respond = (frequencies: Float64Array) => sampled(frequencies, plant);
  const { frequencies, values } = refined(grid, respond);
  let most = 0;
  for (let k = 0; k + 1 < frequencies.length; k++) {
    const [re, im] = plant(frequencies[k] + 0.37 * (frequencies[k + 1] - frequencies[k]));
    const off = Math.hypot(
      between(frequencies, values.re, k)(0.37) - re,
      between(frequencies, values.im, k)(0.37) - im,
    );
    most = Math.max(most, off / Math.hypot(re, im));
  }
  return { most, frequencies };
};

test("a smooth response keeps its grid", () => {
  expect(error(allPole([0, 1, 0.02], 0.0005)).frequencies).toEqual(grid);
});

// 1/(1 + 2 z s/w0 + (s/w0)^2): half-width of the resonance z w0, here a tenth of a grid step at most.
test.each([0.002, 0.0003])("a resonance of damping %f is followed", (damping) => {
  const { most, frequencies } = error(allPole([1, (2 * damping) / 100, 1e-4], 0));
  expect(most).toBeLessThan(2e-6);
  expect(frequencies.length).toBeGreaterThan(grid.length + 20);
  expect(frequencies.length).toBeLessThan(grid.length + 400);
  expect([...frequencies].every((w, k) => k === 0 || w > frequencies[k - 1])).toBe(true);
  for (const w of grid) expect(frequencies).toContain(w);
});
