// The shape K e^(-Ls) / (s (T s + 1)) out of responses that are known.
import { describe, expect, it } from "vitest";
import { craftUnder } from "../../src/airframe/craft.js";
import { hoverTrim } from "../../src/airframe/trim.js";
import { type ErringResponse, shapeOf } from "../../src/fit/shape.js";
import { openPlant } from "../../src/theory/plant.js";
import { FULL, stretchedX } from "../fixtures/airframe.js";
import { allPole } from "../theory/plain-plants.js";
import { normals } from "./simulated-log.js";

const TRUTH = { authority: 1400, lag: 0.06, delay: 0.008 };
const frequencies = Float64Array.from({ length: 58 }, (_, k) => 2 * Math.PI * (1.5 + 0.5 * k));
const plant = allPole([0, 1 / TRUTH.authority, TRUTH.lag / TRUTH.authority], TRUTH.delay);

/** The truth with normal errors of this share. */
function disturbed(share: number, seed: number): ErringResponse {
  const chance = normals(2 * frequencies.length, "shape", seed);
  const value = { re: new Float64Array(frequencies.length), im: new Float64Array(frequencies.length) };
  frequencies.forEach((w, k) => {
    const [re, im] = plant(w);
    const [a, b] = [1 + share * (chance[2 * k] ?? 0), share * (chance[2 * k + 1] ?? 0)];
    value.re[k] = re * a - im * b;
    value.im[k] = re * b + im * a;
  });
  return { frequencies, value, error: frequencies.map(() => share || 0.01) };
}

describe("a shape", () => {
  it("is found exactly where there is no error", () => {
    const shape = shapeOf(disturbed(0, 0));
    expect(shape?.authority.middle).toBeCloseTo(TRUTH.authority, 3);
    expect(shape?.lag.middle).toBeCloseTo(TRUTH.lag, 7);
    expect(shape?.delay.middle).toBeCloseTo(TRUTH.delay, 8);
    expect(shape?.authorityOverLag.middle).toBeCloseTo(TRUTH.authority / TRUTH.lag, 1);
  });

  it("has intervals that hold the truth 95 times of 100, in 200 draws", () => {
    const inside = { authority: 0, lag: 0, delay: 0, authorityOverLag: 0 };
    const truth = { ...TRUTH, authorityOverLag: TRUTH.authority / TRUTH.lag };
    for (let seed = 0; seed < 200; seed++) {
      const shape = shapeOf(disturbed(0.1, seed));
      for (const key of ["authority", "lag", "delay", "authorityOverLag"] as const)
        if (shape && shape[key].low < truth[key] && truth[key] < shape[key].high) inside[key]++;
    }
    for (const count of Object.values(inside)) {
      expect(count).toBeGreaterThanOrEqual(180);
      expect(count).toBeLessThanOrEqual(199);
    }
  });

  it("is wider where the response has another shape than that", () => {
    const bent = disturbed(0.01, 1);
    const value = { re: bent.value.re.map((re, k) => re * (k % 2 === 0 ? 1.2 : 0.8)), im: bent.value.im };
    const [straight, other] = [shapeOf(bent), shapeOf({ ...bent, value })];
    expect(other?.misfit).toBeGreaterThan(5);
    const width = (shape: typeof other) => (shape ? shape.lag.high / shape.lag.low - 1 : 0);
    expect(width(other)).toBeGreaterThan(2 * width(straight));
  });

  it("is none where fewer than six frequencies lie in the band", () => {
    expect(shapeOf(disturbed(0, 0), { lowest: 10, highest: 20 })).toBeNull();
  });

  it("is what theory says of a model: its delay is latency, and the hold's half period", () => {
    const craft = craftUnder(stretchedX, FULL);
    const trim = hoverTrim(craft);
    if (trim === null) throw new Error("the craft hovers");
    const value = openPlant(craft, trim)(frequencies)[0]?.[0];
    if (value === undefined) throw new Error("roll has a response to its own command");
    const shape = shapeOf({ frequencies, value, error: frequencies.map(() => 0.01) });
    const { latency, rate } = stretchedX.controller;
    // What is left is the inflow that body rates bring to the rotors, low down.
    expect(shape?.residual).toBeLessThan(0.05);
    expect(Math.abs((shape?.delay.middle ?? 0) - latency - 0.5 / rate)).toBeLessThan(2e-4);
  });
});
