// How late a controller answers a slow swing, against closed forms.
import { describe, expect, it } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { readYaml } from "../../src/files/yaml.js";
import { controllerDelay } from "../../src/theory/controller-delay.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const HERTZ = 50;
const delayWith = (gyro: string, slope = "") => {
  const text = changed(
    SMALL_MODEL,
    ["sensing: {noise", `sensing: {${gyro}noise`],
    ["  idle: 6 %\n", `  idle: 6 %\n${slope}`],
  );
  return controllerDelay(parseAirframe(readYaml("x.yaml", text)), { throttle: 0.3, speeds: [] }, HERTZ);
};
const bare = delayWith("low_pass: [], ", "");

describe("the delay of a controller at 50 Hz", () => {
  it("of a notch is what its phase is: atan of width f/(centre² - f²), pre-warped, over 2π f", () => {
    // S.J. Orfanidis, Introduction to Signal Processing, 11.3, from memory; the sampled notch has the analog one's phase at warped
    // frequencies tan(pi f/rate).
    const rate = 4000;
    const warp = (f: number) => Math.tan((Math.PI * f) / rate);
    const [f, centre, width] = [warp(HERTZ), warp(158), warp(50)];
    const phase = Math.atan((width * f * (1 + centre * centre)) / (centre * centre - f * f));
    const more = delayWith("low_pass: [], notch: [{centre: 158 Hz, width: 50 Hz}], ").p - bare.p;
    expect(more).toBeCloseTo(phase / (2 * Math.PI * HERTZ), 9);
  });

  it("of a first-order low-pass is atan(f/cutoff) over 2π f, pre-warped", () => {
    const warp = (f: number) => Math.tan((Math.PI * f) / 4000);
    const more = delayWith("low_pass: [{order: 1, cutoff: 90 Hz}], ").p - bare.p;
    expect(more).toBeCloseTo(Math.atan(warp(HERTZ) / warp(90)) / (2 * Math.PI * HERTZ), 9);
  });

  it("of D alone is the slope's half period more, and what D's own stages add", () => {
    expect(bare.d - bare.p).toBeCloseTo(1 / 4000 / 2, 9);
    const own = delayWith("low_pass: [], ", "  rate_derivative_notch: [{centre: 158 Hz, width: 50 Hz}]\n");
    expect(own.p).toBe(bare.p);
    expect(own.d).toBeGreaterThan(bare.d);
  });
});
