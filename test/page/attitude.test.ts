import { describe, expect, it } from "vitest";
import { horizonAt, upward } from "../../src/page/trial/attitude.js";
import type { Recording } from "../../src/page/trial/recording.js";

const DEGREES = 180 / Math.PI;

/** A recording of constant body rates, rad/s, for `seconds` at 1 kHz. */
function turning(p: number, q: number, r: number, seconds: number): Recording {
  const count = Math.round(seconds * 1000) + 1;
  const constant = (value: number) => new Float64Array(count).fill(value);
  const rates = [constant(p), constant(q), constant(r)] as const;
  return { period: 0.001, axis: 0, rates, command: constant(0), speeds: [], trace: constant(p) };
}

const atEnd = (recording: Recording) => horizonAt(upward(recording), recording.command.length - 1);

describe("the horizon", () => {
  it("lies level and in the middle at the start", () => {
    expect(horizonAt(upward(turning(1, 1, 1, 0.1)), 0)).toEqual({ turn: -0, below: 0 });
  });

  it("turns against a roll, by its angle: right side down turns the picture counter-clockwise", () => {
    // Positive roll rate lifts the left side.
    const { turn, below } = atEnd(turning(1, 0, 0, 0.5));
    expect(turn * DEGREES).toBeCloseTo(-0.5 * DEGREES, 3);
    expect(below).toBeCloseTo(0, 9);
  });

  it("rises when the nose goes down, by the tangent of the angle", () => {
    // Positive pitch rate lowers the nose; the horizon then stands above the middle.
    const { turn, below } = atEnd(turning(0, 0.8, 0, 0.5));
    expect(below).toBeCloseTo(-Math.tan(0.4), 5);
    expect(turn).toBeCloseTo(0, 9);
  });

  it("does not move in a flat turn", () => {
    expect(atEnd(turning(0, 0, 3, 1))).toEqual({ turn: -0, below: 0 });
  });

  it("comes home after a full roll at a pilot's rate", () => {
    const { turn, below } = atEnd(turning(2 * Math.PI, 0, 0, 1));
    expect(turn).toBeCloseTo(0, 4);
    expect(below).toBeCloseTo(0, 6);
  });

  it("couples the axes as a body does: a quarter roll, then nose-down pitch, turns along the horizon", () => {
    const first = turning(Math.PI / 2, 0, 0, 1);
    const second = turning(0, 1, 0, 0.5);
    const joined = (a: Float64Array, b: Float64Array) => Float64Array.from([...a.slice(0, -1), ...b]);
    const rates = first.rates.map((rate, k) =>
      joined(rate, second.rates[k] as Float64Array),
    ) as unknown as Recording["rates"];
    const recording: Recording = { ...first, rates, command: joined(first.command, second.command) };
    const { turn, below } = atEnd(recording);
    expect(turn * DEGREES).toBeCloseTo(-90, 2);
    expect(below).toBeCloseTo(0, 4);
  });
});
