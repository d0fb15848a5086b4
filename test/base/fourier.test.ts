// The transform against its definition, summed term by term, at lengths of every kind.
import { describe, expect, it } from "vitest";
import { fourier, smoothLength } from "../../src/base/fourier.js";
import { stream } from "../../src/base/random.js";

function drawn(length: number) {
  const source = stream("fourier", length);
  const next = () => source.next() / 4294967296 - 0.5;
  return { re: Float64Array.from({ length }, next), im: Float64Array.from({ length }, next) };
}

describe("the Fourier transform", () => {
  it.each([1, 2, 3, 4, 8, 30, 49, 97, 100, 210, 256])("of %i samples is the sum of its definition", (length) => {
    const x = drawn(length);
    const { re, im } = fourier(x);
    for (let k = 0; k < length; k++) {
      let [sumRe, sumIm] = [0, 0];
      for (let n = 0; n < length; n++) {
        const angle = (2 * Math.PI * ((k * n) % length)) / length;
        sumRe += x.re[n] * Math.cos(angle) - x.im[n] * Math.sin(angle);
        sumIm += x.re[n] * Math.sin(angle) + x.im[n] * Math.cos(angle);
      }
      expect(Math.abs(re[k] - sumRe)).toBeLessThan(1e-13 * length);
      expect(Math.abs(im[k] - sumIm)).toBeLessThan(1e-13 * length);
    }
  });
});

describe("a smooth length", () => {
  it("has no large prime factor and is hardly longer", () => {
    for (let length = 250; length < 20_000; length += 7) {
      const smooth = smoothLength(length);
      let rest = smooth;
      for (const prime of [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31]) while (rest % prime === 0) rest /= prime;
      expect(rest).toBe(1);
      expect(smooth).toBeGreaterThanOrEqual(length);
      expect(smooth).toBeLessThan(1.02 * length);
    }
  });
});
