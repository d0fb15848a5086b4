import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { fillGaussian, stream } from "../../src/base/random.js";
import { readDocument } from "../../src/files/read.js";
import { evidenceOf, type FlightEvidence, type MeasuredResponse } from "../../src/fit/evidence.js";
import { steadyAt } from "../../src/fit/in-flight.js";
import { posteriorOf } from "../../src/fit/posterior.js";
import type { ResponseEstimate } from "../../src/fit/response-estimate.js";
import { theoryResponse } from "../../src/fit/response-residuals.js";
import { unknownsOf } from "../../src/fit/unknowns.js";
import type { LogAxis } from "../../src/flight/log.js";
import { authorityAt } from "../../src/theory/authority.js";

const unknowns = unknownsOf(readDocument("models/sandpiper-r1.yaml"), 0.1);
const FREQ = Float64Array.from({ length: 50 }, (_, k) => 2 * Math.PI * (1.5 + k));

function measured(airframe: Airframe, axis: LogAxis, duty: number, error: number, seed: number): MeasuredResponse {
  const theory = theoryResponse(steadyAt(airframe, unknowns.mixer, duty, { charge: 0.9, voltage: null }), axis, FREQ);
  const noisy = (part: number, times: number): ResponseEstimate => {
    const noise = new Float64Array(2 * FREQ.length);
    fillGaussian(noise, stream(seed, axis, part));
    const re = theory.re.map((x, k) => x + times * error * (noise[2 * k] * x - noise[2 * k + 1] * theory.im[k]));
    const im = theory.im.map((x, k) => x + times * error * (noise[2 * k] * x + noise[2 * k + 1] * theory.re[k]));
    return {
      frequencies: FREQ,
      value: { re, im },
      coherence: FREQ.map(() => 0.9),
      error: FREQ.map(() => error),
      windows: 20,
      duty,
      voltage: null,
    };
  };
  return { axis, estimate: noisy(0, 1), parts: [] };
}

const normal = (seed: number, count: number) => {
  const out = new Float64Array(count);
  fillGaussian(out, stream("truth", seed));
  return out;
};

describe("try", () => {
  it("covers", () => {
    const keys = unknowns.spreads.map(({ key }) => key);
    let inside = 0,
      all = 0,
      kIn = 0,
      kAll = 0;
    const t0 = Date.now();
    for (let seed = 0; seed < 4; seed++) {
      const truth = normal(seed, keys.length);
      const airframe = unknowns.airframeAt(truth);
      if (airframe === null) continue;
      const flight: FlightEvidence = {
        title: "x",
        charge: { value: 0.9, size: 0.1 },
        sightings: [],
        gainsOf: () => null,
        responses: (["roll", "pitch"] as const).map((axis) => measured(airframe, axis, 0.35, 0.05, seed)),
      };
      const ev = evidenceOf(unknowns, [flight]);
      const post = posteriorOf(ev.likelihood, ev.partsAt);
      for (let k = 0; k < keys.length; k++) {
        const sd = Math.sqrt(post.covariance.get(k, k));
        all++;
        if (Math.abs(post.scores[k] - truth[k]) < 1.96 * sd) inside++;
        if (seed === 0) console.log(keys[k], post.scores[k].toFixed(2), truth[k].toFixed(2), sd.toFixed(3));
      }
      const K = (s: Float64Array) => {
        const f = steadyAt(unknowns.airframeAt(s)!, unknowns.mixer, 0.35, { charge: 0.9, voltage: null });
        return authorityAt(f.craft, f.trim).roll;
      };
      const g = keys.map((_, k) => {
        const a = post.scores.slice(0, keys.length);
        const b = a.slice();
        a[k] += 0.01;
        b[k] -= 0.01;
        return (K(a) - K(b)) / 0.02;
      });
      let v = 0;
      for (let i = 0; i < keys.length; i++)
        for (let j = 0; j < keys.length; j++) v += g[i] * g[j] * post.covariance.get(i, j);
      console.log(
        "K",
        K(post.scores),
        "truth",
        K(truth),
        "sd",
        Math.sqrt(v),
        "prior sd",
        Math.sqrt(g.reduce((s, x) => s + x * x, 0)),
        "misfit",
        JSON.stringify(post.misfits),
        post.surprise,
      );
    }
    console.log(inside, all, Date.now() - t0, "ms");
    expect(inside / all).toBeGreaterThan(0.9);
  });
});
