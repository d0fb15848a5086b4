import { describe, expect, it } from "vitest";
import type { BoundaryBandPoint } from "../../src/fit/format.js";
import { tuneCall } from "../../src/fit/tune-call.js";

const band = (...middles: readonly (number | null)[]): BoundaryBandPoint[] =>
  middles.map((middle, d) => ({ d, low: middle, middle, high: middle }));
const shares = (safeShareBefore: number, safeShareAfter: number) => ({ d: 0.5, safeShareBefore, safeShareAfter });

describe("what becomes of a tune that was flown", () => {
  it.each([
    [
      "a boundary that fell ends it, however many draws it holds in",
      shares(1, 1),
      band(40, 60),
      band(38, 54),
      "do not fly",
    ],
    ["one that rose leaves it", shares(1, 1), band(40, 60), band(42, 64), "holds"],
    ["one that moved by less than a hundredth did not fall", shares(1, 1), band(40, 60), band(39.8, 59.8), "holds"],
    [
      "fewer draws than before, and than are asked for, end it",
      shares(0.95, 0.9),
      band(40, 60),
      band(40, 60),
      "do not fly",
    ],
    ["more draws than before do not, few as they are", shares(0.5, 0.9), band(40, 60), band(40, 60), "holds"],
    ["a boundary where none was found before is lower", shares(1, 1), band(null, null), band(90, 90), "do not fly"],
    ["one that is no longer found is higher", shares(1, 1), band(90, 90), band(null, null), "holds"],
    ["none before or after is the same", shares(1, 1), band(null, null), band(null, null), "holds"],
  ] as const)("%s", (_, tune, before, after, call) => {
    expect(tuneCall(tune, { before, after }, 0.95)).toBe(call);
  });
});
