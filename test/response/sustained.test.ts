import { describe, expect, it } from "vitest";
import { traceOf } from "../../src/response/reader.js";
import {
  FEWEST_HALF_CYCLES,
  isSustained,
  NUDGE_DECAY,
  QUIET,
  SLOWEST_DECAY,
  VANISHED,
} from "../../src/response/sustained.js";
import { type Swing, swingOf } from "../../src/response/swing.js";
import { sampled } from "./traces.js";

const OTHERS = ["stop", "blip", "wobble", "hover"] as const;
/** Oscillation that sustains itself by every part of the rule. */
const limitCycle: Swing = { amplitude: 1, growth: 0, halfCycles: 20, frequency: 10 };

const tail = (f: (t: number) => number): Swing => {
  const trace = sampled(f, 1.2, 1 / 4000);
  return swingOf(traceOf(trace), 0, trace.length, 1 / 4000);
};

// The thresholds are this project's own; no source.
describe("each threshold, on both sides", () => {
  it.each(OTHERS)("half-cycles of a %s", (kind) => {
    expect(isSustained({ ...limitCycle, halfCycles: FEWEST_HALF_CYCLES }, kind)).toBe(true);
    expect(isSustained({ ...limitCycle, halfCycles: FEWEST_HALF_CYCLES - 1 }, kind)).toBe(false);
  });

  it.each(OTHERS)("amplitude of a %s", (kind) => {
    expect(isSustained({ ...limitCycle, amplitude: QUIET * 1.001 }, kind)).toBe(true);
    expect(isSustained({ ...limitCycle, amplitude: QUIET * 0.999 }, kind)).toBe(false);
  });

  it.each(OTHERS)("growth of a %s", (kind) => {
    expect(isSustained({ ...limitCycle, growth: SLOWEST_DECAY + 1e-6 }, kind)).toBe(true);
    expect(isSustained({ ...limitCycle, growth: SLOWEST_DECAY - 1e-6 }, kind)).toBe(false);
  });

  it("a nudge asks for growth and half-cycles, and for no size but that of rounding", () => {
    const small = { ...limitCycle, amplitude: VANISHED * 1.01 };
    expect(isSustained({ ...small, amplitude: VANISHED, growth: 0 }, "nudge")).toBe(false);
    expect(isSustained({ ...small, growth: NUDGE_DECAY + 1e-6 }, "nudge")).toBe(true);
    expect(isSustained({ ...small, growth: NUDGE_DECAY - 1e-6 }, "nudge")).toBe(false);
    expect(isSustained({ ...small, halfCycles: FEWEST_HALF_CYCLES - 1 }, "nudge")).toBe(false);
  });
});

describe("traces read and ruled on", () => {
  const swing = (amplitude: number, growth: number, frequency: number) => (t: number) =>
    amplitude * Math.exp(growth * t) * Math.sin(2 * Math.PI * frequency * t + 0.4);

  it.each(["nudge", ...OTHERS] as const)(
    "a saturated limit cycle is sustained, though its late to early ratio is 1: %s",
    (kind) => {
      for (const frequency of [5, 9, 16, 60]) expect(isSustained(tail(swing(2, 0, frequency)), kind)).toBe(true);
    },
  );

  it.each(["nudge", ...OTHERS] as const)(
    "a slow return that does not swing is not sustained, however slow: %s",
    (kind) => {
      for (const rate of [0.01, 0.1, 1])
        expect(
          isSustained(
            tail((t) => 3 * Math.exp(-rate * t)),
            kind,
          ),
        ).toBe(false);
    },
  );

  it.each(OTHERS)("a slow return with the sensor's ripple on it is not sustained: %s", (kind) => {
    const ripple = swing(0.02, 0, 45); // rad/s, about 1 deg/s
    expect(
      isSustained(
        tail((t) => 1.5 * Math.exp(-1.3 * t) + ripple(t)),
        kind,
      ),
    ).toBe(false);
  });

  it("a decaying swing dies out, a growing one does not", () => {
    expect(isSustained(tail(swing(2, -1, 9)), "stop")).toBe(false);
    expect(isSustained(tail(swing(0.2, 1, 9)), "stop")).toBe(true);
    expect(isSustained(tail(swing(1e-4, -0.05, 9)), "nudge")).toBe(false);
    expect(isSustained(tail(swing(1e-4, 0.05, 9)), "nudge")).toBe(true);
  });

  it("the rounding of a nudge that is long over is not sustained", () => {
    // Steady at 0.09 rad/s: doubles there are 1.4e-17 apart, more than is left of the swing in the tail.
    const rounding = tail((t) => 0.09 + 0.09 * Math.exp(-60 * (t + 0.4)) * Math.sin(2 * Math.PI * 12 * t));
    expect(isSustained(rounding, "nudge")).toBe(false);
    expect(isSustained({ ...rounding, growth: 0, halfCycles: 50 }, "nudge")).toBe(false);
  });

  it("a nudge's rule is off by less than 0.01 per second", () => {
    for (const frequency of [6, 9, 16, 60]) {
      expect(isSustained(tail(swing(1e-3, NUDGE_DECAY - 0.01, frequency)), "nudge")).toBe(false);
      expect(isSustained(tail(swing(1e-3, NUDGE_DECAY + 0.01, frequency)), "nudge")).toBe(true);
    }
  });

  it("a still trace is not sustained", () => {
    for (const kind of ["nudge", ...OTHERS] as const)
      expect(
        isSustained(
          tail(() => 0),
          kind,
        ),
      ).toBe(false);
  });
});
