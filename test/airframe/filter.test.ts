import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { LowPass, Notch } from "../../src/airframe/airframe.js";
import { isNotch, lowPassDelay, lowPassStage, notchDelay, notchStage } from "../../src/airframe/filter.js";

const low = (order: 1 | 2, cutoff: number): LowPass => ({ order, cutoff });

/** Gain and phase (rad) of a stage at a frequency, from its difference equation. */
function response(filter: LowPass | Notch, rate: number, frequency: number): { gain: number; phase: number } {
  const [b0, b1, b2, a1, a2] = isNotch(filter) ? notchStage(filter, rate) : lowPassStage(filter, rate);
  const angle = (2 * Math.PI * frequency) / rate;
  const along = (c0: number, c1: number, c2: number) => c0 + c1 * Math.cos(angle) + c2 * Math.cos(2 * angle);
  const across = (c1: number, c2: number) => -c1 * Math.sin(angle) - c2 * Math.sin(2 * angle);
  const [br, bi, ar, ai] = [along(b0, b1, b2), across(b1, b2), along(1, a1, a2), across(a1, a2)];
  return { gain: Math.hypot(br, bi) / Math.hypot(ar, ai), phase: Math.atan2(bi * ar - br * ai, br * ar + bi * ai) };
}

/** The stage as the loop runs it, on a unit step. */
function stepResponse(filter: LowPass, rate: number, count: number): number[] {
  const [b0, b1, b2, a1, a2] = lowPassStage(filter, rate);
  let [z1, z2] = [0, 0];
  return Array.from({ length: count }, () => {
    const y = b0 + z1;
    z1 = b1 - a1 * y + z2;
    z2 = b2 - a2 * y;
    return y;
  });
}

describe("second order, Butterworth", () => {
  // A.V. Oppenheim and R.W. Schafer, bilinear design; values of SciPy's butter, the first also of Octave: recomputed.
  it.each([
    [100, 1000, 0.0674552738890719, -1.1429805025399011, 0.4128015980961888],
    [50, 1000, 0.0200833655642112, -1.5610180758007182, 0.6413515380575631],
    [80, 1000, 0.0461318020933129, -1.3072850288493236, 0.4918122372225753],
    [150, 2000, 0.0412535372417203, -1.3489677452527948, 0.5139818942196759],
    [100, 4000, 0.0055427172102807, -1.7786317778245846, 0.8008026466657073],
    [90, 8000, 0.0011892115891335, -1.9001124192197263, 0.9048692655762602],
    [250, 1000, 0.2928932188134524, 0, 0.1715728752538099],
  ])("%d Hz at %d Hz", (cutoff, rate, b, a1, a2) => {
    const stage = lowPassStage(low(2, cutoff), rate);
    [b, 2 * b, b, a1, a2].forEach((expected, i) => {
      expect(Math.abs(stage[i] - expected)).toBeLessThan(1e-13);
    });
  });

  // sqrt(2)/(2 tan(pi fc/fs)) samples: derived; recomputed.
  it.each([
    [100, 1000, 2.176251],
    [50, 1000, 4.464497],
    [80, 1000, 2.753999],
    [150, 2000, 2.945312],
    [100, 4000, 8.984644],
    [90, 8000, 19.998698],
  ])("%d Hz at %d Hz is late by %d samples", (cutoff, rate, samples) => {
    expect(lowPassDelay(low(2, cutoff), rate) * rate).toBeCloseTo(samples, 6);
  });

  it("is late by the analogue filter's sqrt(2)/wc where the rate is high", () => {
    expect(lowPassDelay(low(2, 100), 1e6) * 1e3).toBeCloseTo(2.250791, 6);
  });

  it("step response of 100 Hz at 1 kHz", () => {
    // SciPy; recomputed.
    const expected = [0.067455, 0.279466, 0.5614, 0.796126, 0.948031, 1.02476, 1.049753, 1.046646, 1.032777, 1.018208];
    stepResponse(low(2, 100), 1000, 10).forEach((y, i) => {
      expect(Math.abs(y - expected[i])).toBeLessThan(6e-7);
    });
    expect(Math.max(...stepResponse(low(2, 100), 1000, 100)) - 1).toBeCloseTo(0.0498, 4);
  });
});

describe("first order, bilinear (not the two other forms in use)", () => {
  // Algebra; recomputed. The backward-difference form would have 0.3858695, the exponential one 0.4665119.
  it.each([
    [100, 1000, 0.2452373, -0.5095254],
    [50, 1000, 0.1367287, -0.7265425],
  ])("%d Hz at %d Hz", (cutoff, rate, b, a1) => {
    const stage = lowPassStage(low(1, cutoff), rate);
    [b, b, 0, a1, 0].forEach((expected, i) => {
      expect(stage[i]).toBeCloseTo(expected, 7);
    });
  });

  it("is late by 1.538842 samples at a tenth of the rate", () => {
    expect(lowPassDelay(low(1, 100), 1000) * 1000).toBeCloseTo(1.538842, 6);
  });
});

describe("any stage", () => {
  const stage = fc.record({
    order: fc.constantFrom(1 as const, 2 as const),
    cutoff: fc.double({ min: 10, max: 900, noNaN: true }),
  });

  it("passes rest unchanged, half the power at the cutoff, nothing at half the rate", () => {
    fc.assert(
      fc.property(stage, (filter) => {
        expect(response(filter, 2000, 0).gain).toBeCloseTo(1, 10);
        const corner = response(filter, 2000, filter.cutoff);
        expect(corner.gain).toBeCloseTo(Math.SQRT1_2, 9);
        expect(corner.phase).toBeCloseTo((-filter.order * Math.PI) / 4, 9);
        expect(response(filter, 2000, 1000).gain).toBeLessThan(1e-9);
      }),
      { seed: 10 },
    );
  });

  it("delays slow signals by what it states", () => {
    fc.assert(
      fc.property(stage, (filter) => {
        const slow = filter.cutoff / 1000;
        const measured = -response(filter, 2000, slow).phase / (2 * Math.PI * slow);
        expect(measured / lowPassDelay(filter, 2000)).toBeCloseTo(1, 4);
      }),
      { seed: 11 },
    );
  });

  it.each([0, -1, 500, 600, NaN])("a cutoff of %d Hz at 1 kHz is refused", (cutoff) => {
    expect(() => lowPassStage(low(2, cutoff), 1000)).toThrow(/not between 0 and half the rate/);
    expect(() => lowPassDelay(low(1, cutoff), 1000)).toThrow(/not between 0 and half the rate/);
  });
});

describe("a notch", () => {
  const RATE = 2000;
  const notches = fc.record({
    centre: fc.double({ min: 15, max: 950, noNaN: true }),
    width: fc.double({ min: 2, max: 800, noNaN: true }),
  });
  const inTurns = (frequency: number) => (2 * Math.PI * frequency) / RATE;

  it("passes rest and half the rate unchanged, nothing at its centre", () => {
    fc.assert(
      fc.property(notches, (notch) => {
        expect(response(notch, RATE, 0).gain).toBeCloseTo(1, 9);
        expect(response(notch, RATE, RATE / 2).gain).toBeCloseTo(1, 9);
        expect(response(notch, RATE, notch.centre).gain).toBeLessThan(1e-9);
      }),
      { seed: 12 },
    );
  });

  // The two -3 dB points by trigonometry: their middle m has cos m = cos(centre) cos(width/2). Derived.
  it("passes half the power, 45 degrees late and early, at two frequencies the width apart", () => {
    fc.assert(
      fc.property(notches, (notch) => {
        const middle =
          (Math.acos(Math.cos(inTurns(notch.centre)) * Math.cos(inTurns(notch.width) / 2)) * RATE) / 2 / Math.PI;
        const [below, above] = [-0.5, 0.5].map((share) => response(notch, RATE, middle + share * notch.width));
        expect(below.gain).toBeCloseTo(Math.SQRT1_2, 8);
        expect(above.gain).toBeCloseTo(Math.SQRT1_2, 8);
        expect(below.phase).toBeCloseTo(-Math.PI / 4, 7);
        expect(above.phase).toBeCloseTo(Math.PI / 4, 7);
      }),
      { seed: 13 },
    );
  });

  // tan(lag) = tan(width/2) sin w/(cos w - cos centre) in angles per sample; derived. A textbook's analogue notch,
  // w width/(centre^2 - w^2), is what that comes to at a high rate.
  it("is late below its centre by the closed form, and by the analogue one's where the rate is high", () => {
    fc.assert(
      fc.property(notches, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (notch, share) => {
        const w = share * notch.centre;
        const across = Math.tan(inTurns(notch.width) / 2) * Math.sin(inTurns(w));
        const lag = Math.atan2(across, Math.cos(inTurns(w)) - Math.cos(inTurns(notch.centre)));
        expect(-response(notch, RATE, w).phase).toBeCloseTo(lag, 8);
      }),
      { seed: 14 },
    );
    for (const w of [10, 60, 120, 170]) {
      const lag = Math.atan2(w * 40, 180 * 180 - w * w);
      expect(-response({ centre: 180, width: 40 }, 1e6, w).phase).toBeCloseTo(lag, 5);
    }
  });

  it("delays slow signals by what it states, width/(2 pi centre^2) where the rate is high", () => {
    fc.assert(
      fc.property(notches, (notch) => {
        const slow = Math.min(notch.centre, notch.centre ** 2 / notch.width) / 2000;
        const measured = -response(notch, RATE, slow).phase / (2 * Math.PI * slow);
        expect(measured / notchDelay(notch, RATE)).toBeCloseTo(1, 4);
      }),
      { seed: 15 },
    );
    expect(notchDelay({ centre: 180, width: 40 }, 1e6) / (40 / (2 * Math.PI * 180 ** 2))).toBeCloseTo(1, 5);
  });

  it.each([
    [0, 10],
    [500, 10],
    [100, 500],
    [100, 0],
  ])("centre %d Hz and width %d Hz at 1 kHz are refused", (centre, width) => {
    expect(() => notchStage({ centre, width }, 1000)).toThrow(/not between 0 and half the rate/);
  });
});
