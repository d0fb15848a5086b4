// The whole fit on a real craft: its model, of which most is a guess, and both its logs (test/fixtures/flights/README.md: paper,
// licence, and the reference identification held against).
import { beforeAll, describe, expect, it } from "vitest";
import type { FitFile } from "../../src/fit/format.js";
import { fitFlights } from "../../src/flow/fit.js";
import { REFERENCE, TILT_AXES } from "../fit/nano-quad.js";

const folder = "test/fixtures/flights";

let file: FitFile;
beforeAll(async () => {
  const files = [`${folder}/nano-quad-roll-pitch.yaml`, `${folder}/nano-quad-throttle.yaml`];
  ({ file } = await fitFlights({
    files,
    model: null,
    sweep: "test/fixtures/draws.yaml",
    out: null,
    command: "gainscape fit",
  }));
});

describe.each(TILT_AXES)("%s of the real craft's fitted model", (axis) => {
  it("has the reference's authority over lag to 7 %, delay to 1 ms, authority and lag to 15 %", () => {
    const { authority, lag, delay, authorityOverLag, correlationOfAuthorityAndLag } = file.axes[axis].after;
    const reference = REFERENCE[axis];
    expect(Math.abs(authorityOverLag.middle / reference.ratio - 1)).toBeLessThan(0.07);
    expect(Math.abs(delay.middle - reference.delay)).toBeLessThan(1e-3);
    expect(Math.abs(authority.middle / reference.authority - 1)).toBeLessThan(0.15);
    expect(Math.abs(lag.middle / reference.lag - 1)).toBeLessThan(0.15);
    expect(correlationOfAuthorityAndLag).toBeGreaterThan(0.85);
  });

  it("knows them better than the model did", () => {
    const { before, after } = file.axes[axis];
    for (const key of ["authority", "lag", "delay", "authorityOverLag"] as const)
      expect(after[key].high / after[key].low, key).toBeLessThan(0.8 * (before[key].high / before[key].low));
  });

  it("predicts more than half of a part that was kept out", () => {
    expect(file.axes[axis].keptOut?.explained).toBeGreaterThan(0.5);
  });
});
