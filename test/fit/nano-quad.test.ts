// A real craft (test/fixtures/flights/README.md: paper, licence, and the reference identification held against).
import { describe, expect, it } from "vitest";
import type { Estimated } from "../../src/fit/format.js";
import { explained, identified, LOGS, largestP, published, REFERENCE, shapeOfMoves, TILT_AXES } from "./nano-quad.js";

const overlap = (one: Estimated, other: Estimated): boolean => one.low <= other.high && other.low <= one.high;

describe.each(TILT_AXES)("%s of the real craft", (axis) => {
  const shape = shapeOfMoves(axis);
  const reference = REFERENCE[axis];

  it("has the reference's authority over lag to 7 %, delay to 1 ms, authority and lag to 15 %", () => {
    expect(Math.abs(shape.authorityOverLag.middle / reference.ratio - 1)).toBeLessThan(0.07);
    expect(Math.abs(shape.delay.middle - reference.delay)).toBeLessThan(1e-3);
    expect(Math.abs(shape.authority.middle / reference.authority - 1)).toBeLessThan(0.15);
    expect(Math.abs(shape.lag.middle / reference.lag - 1)).toBeLessThan(0.15);
  });

  it("has the reference within its intervals, authority and lag hardly told apart", () => {
    for (const [one, other] of [
      [shape.authority, reference.authority],
      [shape.lag, reference.lag],
      [shape.delay, reference.delay],
      [shape.authorityOverLag, reference.ratio],
    ] as const) {
      expect(one.low).toBeLessThan(other);
      expect(one.high).toBeGreaterThan(other);
    }
    expect(shape.correlationOfAuthorityAndLag).toBeGreaterThan(0.85);
    expect(shape.authorityOverLag.high / shape.authorityOverLag.low).toBeLessThan(1.2);
  });

  it("is alike in both halves of each log, as far as they tell", () => {
    const halves = Object.values(LOGS).flatMap((log) => {
      const end = log.time.at(-1) ?? 0;
      const [first, second] = [
        identified(log, axis, { from: end / 2, to: end }),
        identified(log, axis, { from: 0, to: end / 2 }),
      ];
      return first === null || second === null ? [] : [[first.shape, second.shape] as const];
    });
    expect(halves.length).toBeGreaterThan(0);
    for (const [first, second] of halves)
      for (const key of ["authority", "lag", "delay", "authorityOverLag"] as const)
        expect(overlap(first[key], second[key]), key).toBe(true);
  });

  it("is not contradicted by the log of climbs, in which nobody moved it", () => {
    const other = identified(LOGS.climbs, axis);
    if (other === null) return;
    expect(overlap(other.shape.authorityOverLag, shape.authorityOverLag)).toBe(true);
    // What says less is wider.
    const width = ({ low, high }: Estimated) => high / low;
    expect(width(other.shape.authorityOverLag)).toBeGreaterThan(2 * width(shape.authorityOverLag));
  });

  it("predicts a part that was kept out", () => {
    expect(explained(axis)).toBeGreaterThan(0.75);
  });

  it("has the published inertia's and thrust curve's authority within a quarter", () => {
    expect(Math.abs(shape.authority.middle / published(axis) - 1)).toBeLessThan(0.25);
  });

  it("has its P limit by closed form without D, several times that with some, and none with too much", () => {
    const [authority, lag, delay] = [shape.authority.middle, shape.lag.middle, shape.delay.middle];
    // pi/2 + atan(w T) + w L = pi, P K = w sqrt(1 + (w T)^2): integrator, lag and dead time, textbooks.
    let [low, high] = [1, 200];
    for (let n = 0; n < 60; n++) {
      const w = (low + high) / 2;
      if (Math.atan(w * lag) + w * delay < Math.PI / 2) low = w;
      else high = w;
    }
    const limit = ((low * Math.hypot(1, low * lag)) / authority) * 100 * ((100 * Math.PI) / 180);
    expect((largestP(axis, 0) ?? 0) / limit).toBeCloseTo(1, 4);
    expect(largestP(axis, 8) ?? 0).toBeGreaterThan(4 * limit);
    expect(largestP(axis, 25)).toBeNull();
  });
});
