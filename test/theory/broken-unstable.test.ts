// What is unstable while one axis is broken: Nyquist's criterion loop after loop, against the eigenvalues of the whole
// sampled loop.
import { describe, expect, it } from "vitest";
import { brokenUnstable } from "../../src/theory/axis-pieces.js";
import type { GainsByAxis } from "../../src/theory/plant.js";
import { craftOf, trimOf } from "../octave/questions.js";
import { randomModel } from "../octave/random-craft.js";
import { openLoopUnstable } from "./closed-loop-poles.js";

const scaled = (gains: GainsByAxis, by: number): GainsByAxis => {
  const times = ({ p, i, d }: GainsByAxis["roll"]) => ({ p: by * p, i: by * i, d: by * d });
  return { roll: times(gains.roll), pitch: times(gains.pitch), yaw: times(gains.yaw) };
};

describe("unstable poles with one axis broken", () => {
  it("are those the eigenvalues count, for random craft held softly, hard and far too hard", () => {
    const counts = new Map<number, number>();
    for (let seed = 1; seed <= 25; seed++) {
      const model = randomModel(seed);
      const [craft, trim] = [craftOf(model), trimOf(model)];
      for (const axis of ["roll", "pitch"] as const) {
        for (const by of [1, 3, 10, 40]) {
          const holding = scaled(model.gains, by);
          const expected = openLoopUnstable(craft, trim, axis, holding);
          expect(brokenUnstable(craft, trim, axis, holding), `seed ${seed}, ${axis}, ${by} times`).toBe(expected);
          counts.set(expected, (counts.get(expected) ?? 0) + 1);
        }
      }
    }
    // None, one pair and more of them: each often enough to be found wrong.
    expect([...counts.keys()].filter((count) => (counts.get(count) ?? 0) > 5).length).toBeGreaterThan(2);
  });

  it("are counted as fast with 20 ms of latency at 32 kHz", () => {
    const model = randomModel(1);
    const { controller } = model.airframe;
    const airframe = { ...model.airframe, controller: { ...controller, rate: 32_000, latency: 0.02 } };
    const late = { ...model, airframe };
    // With 640 periods of dead time gains of a quick loop are far beyond what is stable, a hundredth of them is not.
    expect(brokenUnstable(craftOf(late), trimOf(late), "roll", model.gains)).toBeGreaterThan(0);
    expect(brokenUnstable(craftOf(late), trimOf(late), "roll", scaled(model.gains, 0.01))).toBe(0);
  });
});
