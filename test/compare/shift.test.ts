import { describe, expect, it } from "vitest";
import { type End, shiftLine } from "../../src/compare/shift.js";

const TOP = 60;
const ends = (...ps: (number | "beyond" | "none")[]): End[] =>
  ps.map((p, d) => ({ d, p: typeof p === "number" ? p : null, stable: p !== "none" }));

const only = (base: number | "beyond" | "none", candidate: number | "beyond" | "none") =>
  shiftLine(ends(base), ends(candidate), TOP).perD[0];

describe("the shift at one D", () => {
  it.each([
    [40, 44, "moved", 10],
    [40, 36, "moved", -10],
    [40, 40, "moved", 0],
    ["beyond", 45, "into the grid", -25],
    [48, "beyond", "out of the grid", 25],
    ["beyond", "beyond", "beyond the grid", null],
    [40, "none", "closed", -100],
    ["none", 40, "opened", null],
    ["none", "none", "never stable", null],
  ] as const)("from %s to %s is %s, %s %%", (base, candidate, state, percent) => {
    expect(only(base, candidate)).toMatchObject({ state, percent });
  });

  it("of equal ends is 0 to the last digit, never minus zero", () => {
    for (const p of [0.1, 27.1990131579, 1 / 3, 66]) expect(Object.is(only(p, p)?.percent, 0)).toBe(true);
  });
});

describe("where stable ground lies in several pieces", () => {
  type Range = readonly [number | null, number | null];
  const pieces = (...ranges: Range[]): End[] => [
    { d: 0, p: ranges[0]?.[1] ?? null, stable: ranges.length > 0, ranges },
  ];
  const shift = (base: readonly Range[], candidate: readonly Range[]) =>
    shiftLine(pieces(...base), pieces(...candidate), TOP).perD[0];

  it("the end of the same ground is compared, not that of a range far above", () => {
    // The lower range shrank to a sliver, and another one counts now: a fall, not a rise to 50.
    const fallen = shift(
      [
        [null, 6],
        [7, 50],
      ],
      [
        [7, 50],
        [null, 3],
      ],
    );
    expect(fallen).toMatchObject({ base: 6, candidate: 3, state: "moved", percent: -50 });
    expect(
      shift(
        [[5, 40]],
        [
          [5, 44],
          [null, 3],
        ],
      ),
    ).toMatchObject({ candidate: 44, percent: 10 });
    expect(shift([[null, 6]], [[7, 50]])).toMatchObject({ candidate: null, state: "closed", percent: -100 });
    expect(shift([[5, 40]], [[5, null]])).toMatchObject({ state: "out of the grid", percent: 50 });
  });
});

describe("the extremes of a line", () => {
  it("carry their sign and their D", () => {
    const line = shiftLine(ends(40, 40, 40, "beyond"), ends(36, 44, 41, "beyond"), TOP);
    expect(line.lowest).toEqual({ d: 0, percent: -10 });
    expect(line.highest).toEqual({ d: 1, percent: 10 });
  });

  it("are absent where no D has a shift", () => {
    const line = shiftLine(ends("beyond", "none"), ends("beyond", "none"), TOP);
    expect([line.lowest, line.highest]).toEqual([null, null]);
  });
});

describe("swapping the sides", () => {
  it("flips every sign, and the two changes undo each other", () => {
    const [a, b] = [ends(27.2, 38.1, "beyond", 50), ends(25, 41.3, 55, 50)];
    const [there, back] = [shiftLine(a, b, TOP), shiftLine(b, a, TOP)];
    for (const [row, { percent }] of there.perD.entries()) {
      const other = back.perD[row]?.percent as number;
      expect(Math.sign(other)).toBe(0 - Math.sign(percent as number));
      expect((1 + (percent as number) / 100) * (1 + other / 100)).toBeCloseTo(1, 9);
    }
  });
});
