import { describe, expect, it } from "vitest";
import { limitCrossings } from "../../src/map/crossings.js";
import { worstOf } from "./tables.js";

const P = [10, 20, 30, 40];
type Overshoot = Parameters<typeof worstOf>[0]["overshoot"];

/** One D, the overshoot of each P. */
const crossings = (...overshoots: (Overshoot | null)[]) =>
  limitCrossings(
    P,
    [0],
    overshoots.map((overshoot) => worstOf(overshoot === null || overshoot === undefined ? {} : { overshoot })),
    "overshoot",
    15,
  )[0];

describe("where a measure passes its limit", () => {
  it("lies between grid points by straight lines", () => {
    expect(crossings(5, 10, 20, 25)).toEqual([25]);
    expect(crossings(5, 14, 18, 25)[0]).toBeCloseTo(22.5, 12);
  });

  it("is every passage, down as well as up", () => {
    const found = crossings(20, 10, 20, 10);
    expect(found).toEqual([15, 25, 35]);
  });

  it("is none where all is within, or all beyond, or the limit is only touched from within", () => {
    expect(crossings(1, 2, 3, 4)).toEqual([]);
    expect(crossings(16, 17, 18, 19)).toEqual([]);
    expect(crossings(10, 15, 15, 10)).toEqual([]);
  });

  it("begins at the grid point that is exactly at the limit", () => {
    expect(crossings(10, 15, 20, 25)).toEqual([20]);
  });

  it("is not lost where the next point failed at the measure", () => {
    const worst = [200, 240, null, null].map((settling) =>
      worstOf({ settling: settling ?? "never settles in the window" }),
    );
    const [[at, ...rest]] = limitCrossings(P, [0], worst, "settling", 250);
    expect(at).toBeGreaterThan(20);
    expect(at).toBeLessThan(30);
    expect(rest).toEqual([]);
  });

  it("is not made up where a point shows nothing", () => {
    expect(crossings(5, null, 25, 30)).toEqual([]);
  });

  it("is found per D", () => {
    const worst = [5, 10, 20, 25, 1, 2, 3, 4, 10, 20, 30, 40].map((overshoot) => worstOf({ overshoot }));
    expect(limitCrossings(P, [0, 1, 2], worst, "overshoot", 15)).toEqual([[25], [], [15]]);
  });
});
