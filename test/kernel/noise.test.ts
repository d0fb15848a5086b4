// What shakes the sensor: its statistics within the window in which it is judged, whatever the seed.
import { describe, expect, it } from "vitest";
import { fourier } from "../../src/base/fourier.js";
import { stream } from "../../src/base/random.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import * as m from "../../src/kernel/memory.js";
import { multisine } from "../../src/kernel/multisine.js";
import { rigOf } from "../../src/kernel/rig.js";
import { turningSpeeds } from "../../src/kernel/vibration.js";
import { modesOf } from "../../src/kernel/wash.js";

const meanSquare = (values: Float64Array): number => values.reduce((sum, v) => sum + v * v, 0) / values.length;

describe("a random-phase multisine", () => {
  // Pintelon and Schoukens, System Identification (2012), ch. 5: the definition.
  it.each([240, 1001, 4000])("of %i samples has mean square 1 and every line of the same amplitude", (length) => {
    const noise = multisine(length, stream("multisine", length));
    expect(Math.abs(meanSquare(noise) - 1)).toBeLessThan(1e-12);
    const { re, im } = fourier({ re: noise, im: new Float64Array(length) });
    for (let k = 0; k < length; k++)
      expect(Math.abs(Math.hypot(re[k], im[k]) / Math.sqrt(length) - 1)).toBeLessThan(1e-9);
  });

  it("is as a bell curve has it: kurtosis 3, a third beyond one sigma", () => {
    const noise = multisine(20_000, stream("bell"));
    expect(Math.abs(noise.reduce((sum, v) => sum + v ** 4, 0) / noise.length - 3)).toBeLessThan(0.15);
    expect(Math.abs(noise.filter((v) => Math.abs(v) > 1).length / noise.length - 0.3173)).toBeLessThan(0.015);
  });
});

describe("rotors of one craft", () => {
  const chance = () => {
    const source = stream("rotors");
    return () => source.next();
  };

  it("make whole numbers of turns in the window, none the same, and together as many as before", () => {
    const trimmed = [1.01, 0.99, 1.01, 0.99];
    const turns = 200.4;
    const counts = turningSpeeds(trimmed, turns, chance()).map((speed) => speed * turns);
    for (const count of counts) expect(Math.abs(count - Math.round(count))).toBeLessThan(1e-9);
    expect(new Set(counts.map(Math.round)).size).toBe(4);
    expect(Math.abs(counts.reduce((sum, c) => sum + c, 0) - 4 * turns)).toBeLessThan(4);
    for (const [i, count] of counts.entries()) expect(Math.abs(count / (trimmed[i] * turns) - 1)).toBeLessThan(0.02);
  });

  it("stay a fiftieth apart where the window is too short for whole turns", () => {
    const speeds = turningSpeeds([1, 1, 1, 1], 3.3, chance()).sort((a, b) => a - b);
    for (let i = 1; i < speeds.length; i++) expect(speeds[i] - speeds[i - 1]).toBeCloseTo(0.02, 12);
  });

  it("get independent noise along modes that are square to each other", () => {
    const modes = modesOf(
      [
        [0.1, -0.07, 0],
        [0.1, 0.07, 0],
        [-0.12, 0.07, 0],
        [-0.12, -0.07, 0],
      ],
      [900, 900, 950, 950],
    );
    for (const [i, a] of modes.entries())
      for (const [j, b] of modes.entries())
        expect(Math.abs(a.reduce((sum, v, k) => sum + v * b[k], 0) - +(i === j))).toBeLessThan(1e-12);
    expect(modes).toHaveLength(4);
  });
});

describe("the sensor of a hovering craft", () => {
  const model = readAirframe("models/sandpiper-r1.yaml");
  const sweep = readSweep("sweeps/first-tune.yaml");

  it("shows noise and every line at its full strength under any seed", () => {
    const { sensing, controller } = model.value;
    for (const seed of [1, 2, 3]) {
      const plan = planFor(model, { ...sweep, value: { ...sweep.value, seed } });
      const variant = plan.variants.find(({ script, hovering }) => script.kind === "hover" && hovering);
      if (variant === undefined) throw new Error("no steady hover");
      const { drive } = rigOf(plan, variant);
      const { from, to } = variant.script.window;
      const error = Float64Array.from(
        { length: Math.round((to - from) * controller.rate) },
        (_, k) => drive.values[(Math.round(from * controller.rate) + k) * drive.width + m.NOISE],
      );
      // Lines of amplitude a at hover from each of four rotors: 4 a^2/2; white noise: density^2 rate/2.
      const lines = sensing.vibration.reduce((sum, { atHover }) => sum + 2 * atHover * atHover, 0);
      const expected = lines + (sensing.noiseDensity ** 2 * controller.rate) / 2;
      expect(Math.abs(meanSquare(error) / expected - 1)).toBeLessThan(0.01);
    }
  });
});
