// A part of a log predicted from its commands.
import { describe, expect, it } from "vitest";
import { predicted, shapeResponse } from "../../src/fit/prediction.js";
import { sampled } from "../../src/theory/frequency.js";
import { logOf, moves, normals, simulated, trueResponse, X_MIXER } from "./simulated-log.js";

const axis = { authority: 1400, lag: 0.063, delaySteps: 1 };
const loop = { p: 0.012, d: 0.0006, corner: 40 };
const step = 0.004;

function log(noise: number, trim = 0) {
  const count = 4000;
  const torque = normals(count, "torque").map((value) => noise * value + trim);
  return logOf(simulated(axis, loop, step, moves(count, step, 3, 1, 10, "sticks"), torque, new Float64Array(count)));
}

const truth = (frequencies: Float64Array) => sampled(frequencies, (w) => trueResponse(axis, step, w));
const explained = (one: ReturnType<typeof log>, response = truth) =>
  predicted(one, X_MIXER, "roll", { from: 2, to: 12 }, response)?.explained;

describe("a prediction", () => {
  it("is the rate itself where nothing else moves the craft, also against a steady torque", () => {
    expect(explained(log(0))).toBeGreaterThan(0.999);
    expect(explained(log(0, 40))).toBeGreaterThan(0.999);
  });

  it("explains less where noise moves it too", () => {
    const quiet = explained(log(5)) ?? 0;
    expect(quiet).toBeLessThan(0.999);
    expect(explained(log(50))).toBeLessThan(quiet);
  });

  it("explains less with a wrong model", () => {
    const estimated = (middle: number) => ({ middle, low: middle, high: middle });
    const shape = (authority: number, delay: number) =>
      shapeResponse({
        authority: estimated(authority),
        lag: estimated(0.063),
        delay: estimated(delay),
        authorityOverLag: estimated(authority / 0.063),
        correlationOfAuthorityAndLag: 0,
      });
    const right = explained(log(5), shape(1400, 0.006)) ?? 0;
    expect(right).toBeGreaterThan(0.97);
    expect(explained(log(5), shape(1000, 0.006))).toBeLessThan(right - 0.05);
    expect(explained(log(5), shape(1400, 0.026))).toBeLessThan(right - 0.05);
  });

  it("covers the seconds asked for, less half a second at each end, and is none where they are too few", () => {
    const found = predicted(log(5), X_MIXER, "roll", { from: 2, to: 12 }, truth);
    expect(found?.time.at(0)).toBeCloseTo(2.5, 2);
    expect(found?.time.at(-1)).toBeCloseTo(11.5, 2);
    expect(predicted(log(5), X_MIXER, "roll", { from: 2, to: 5 }, truth)).toBeNull();
  });
});
