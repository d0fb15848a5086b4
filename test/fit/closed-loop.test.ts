// Logs of a closed loop, whose noise comes back through the controller: the bias of the plain estimate, and what is done about it.
import { describe, expect, it } from "vitest";
import type { FittedShape } from "../../src/fit/format.js";
import { samplesBy } from "../../src/fit/instruments.js";
import { lineEstimate, type Pair } from "../../src/fit/line-estimate.js";
import { measuredResponse } from "../../src/fit/measured-response.js";
import type { Method, ResponseEstimate } from "../../src/fit/response-estimate.js";
import { shapeOf } from "../../src/fit/shape.js";
import { windowsOf } from "../../src/fit/windows.js";
import { logOf, moves, normals, over, simulated, trueController, trueResponse, X_MIXER } from "./simulated-log.js";

const axis = { authority: 1400, lag: 0.063, delaySteps: 1 };
const loop = { p: 0.012, d: 0.0006, corner: 40 };
const step = 0.004;
const MINUTE = 15_000;

/** A log of sticks that move by `size` rad/s for a share of each ten seconds, and of noise in torque (rad/s^2) and sensor. */
function logOfSticks(size: number, noise: number, share: number, wanted: boolean, seed: number, count = MINUTE) {
  const sticks = moves(count, step, size, share, 10, "sticks", seed);
  const torque = normals(count, "torque", seed).map((value) => noise * value);
  const sensor = normals(count, "sensor", seed).map((value) => 4e-4 * noise * value);
  const motion = simulated(axis, loop, step, sticks, torque, sensor);
  return logOf({ ...motion, wanted: wanted ? sticks : null });
}

type Log = ReturnType<typeof logOfSticks>;

/** By one method, at the line nearest to a frequency (Hz). */
function at(
  log: Log,
  method: Method,
  hertz: number,
): { readonly w: number; readonly value: Pair; readonly coherence: number } {
  const { each, spacing } = windowsOf(log, X_MIXER, "roll");
  const index = Math.round((hertz * 2 * Math.PI) / spacing);
  const lines = Array.from({ length: 60 }, (_, k) => 3 + k);
  return { w: index * spacing, ...lineEstimate(samplesBy(method, each, lines)(index)) };
}

const distance = ([a, b]: Pair, [c, d]: Pair): number => Math.hypot(a - c, b - d) / Math.hypot(c, d);

describe("the plain estimate", () => {
  it("shows -1/C of the controller where nothing but noise moves the loop, at full coherence", () => {
    // Ljung, System Identification; from memory.
    for (const hertz of [4, 8, 16]) {
      const { w, value, coherence } = at(logOfSticks(0, 25, 0, false, 1), "command alone", hertz);
      const [re, im] = over([-1, 0], trueController(loop, step, w));
      expect(distance(value, [re, im])).toBeLessThan(0.03);
      expect(distance(value, trueResponse(axis, step, w))).toBeGreaterThan(0.3);
      expect(coherence).toBeGreaterThan(0.99);
    }
  });

  it("leans by the noise's share of the command: G - r (G + 1/C), which the commanded rate as instrument does not", () => {
    const log = logOfSticks(3, 25, 1, true, 2, 20 * MINUTE);
    const quiet = logOfSticks(0, 25, 1, true, 2, 20 * MINUTE);
    const power = (one: Log, hertz: number) => {
      const { each, spacing } = windowsOf(one, X_MIXER, "roll");
      const k = Math.round((hertz * 2 * Math.PI) / spacing);
      return each.reduce((sum, { command }) => sum + (command.re[k] ?? 0) ** 2 + (command.im[k] ?? 0) ** 2, 0);
    };
    for (const hertz of [6, 9]) {
      const [plain, instrument] = [at(log, "command alone", hertz), at(log, "commanded rate", hertz)];
      const truth = trueResponse(axis, step, plain.w);
      const share = power(quiet, hertz) / power(log, hertz);
      const [re, im] = over([1, 0], trueController(loop, step, plain.w));
      const leaning: Pair = [truth[0] - share * (truth[0] + re), truth[1] - share * (truth[1] + im)];
      expect(distance(plain.value, leaning)).toBeLessThan(0.05);
      expect(distance(leaning, truth)).toBeGreaterThan(0.1);
      expect(distance(instrument.value, truth)).toBeLessThan(0.05);
    }
  });
});

type Key = "authority" | "lag" | "delay" | "authorityOverLag";
const KEYS: readonly Key[] = ["authority", "lag", "delay", "authorityOverLag"];

/** The shape of the truth on the same lines with the same weights: how the log's is compared with a model's. */
function trueShape(response: ResponseEstimate): FittedShape | null {
  const values = [...response.frequencies].map((w) => trueResponse(axis, step, w));
  const value = { re: Float64Array.from(values, ([re]) => re), im: Float64Array.from(values, ([, im]) => im) };
  return shapeOf({ ...response, value });
}

/** Of so many logs: how many tell a shape, and in how many of those each interval holds the truth. */
function coverage(seeds: number, log: (seed: number) => Log) {
  const counts = { answers: 0, authority: 0, lag: 0, delay: 0, authorityOverLag: 0 };
  for (let seed = 0; seed < seeds; seed++) {
    const response = measuredResponse(log(seed), X_MIXER, "roll")[0];
    const [shape, truth] = response === undefined ? [null, null] : [shapeOf(response), trueShape(response)];
    if (shape === null || truth === null) continue;
    counts.answers++;
    for (const key of KEYS)
      if (shape[key].low <= truth[key].middle && truth[key].middle <= shape[key].high) counts[key]++;
  }
  return counts;
}

describe("intervals of a shape", { timeout: 120_000 }, () => {
  it.each([
    ["with the commanded rate as instrument", 3, 10, true],
    ["without it, where sticks move half of the time", 3, 10, false],
    ["the same in strong noise, where the plain estimate leans", 3, 25, false],
  ] as const)("hold the truth %s", (_, size, noise, wanted) => {
    const counts = coverage(40, (seed) => logOfSticks(size, noise, 0.5, wanted, seed));
    expect(counts.answers).toBe(40);
    for (const key of KEYS) expect(counts[key], key).toBeGreaterThanOrEqual(36);
  });

  it("are none where the log is too quiet to tell, rather than narrow and wrong", () => {
    expect(coverage(15, (seed) => logOfSticks(0, 25, 0.5, false, seed)).answers).toBe(0);
    expect(coverage(15, (seed) => logOfSticks(0.1, 25, 0.5, true, seed)).answers).toBe(0);
  });

  it("widen as the log becomes quieter", () => {
    const widths = [3, 1.5, 0.75].map((size) => {
      const response = measuredResponse(logOfSticks(size, 6, 0.5, true, 3), X_MIXER, "roll")[0];
      const shape = response && shapeOf(response);
      return shape ? shape.authorityOverLag.high / shape.authorityOverLag.low : Number.POSITIVE_INFINITY;
    });
    expect(widths[1]).toBeGreaterThan(widths[0] ?? 0);
    expect(widths[2]).toBeGreaterThan(widths[1] ?? 0);
  });
});
