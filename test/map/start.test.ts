import { describe, expect, it } from "vitest";
import type { Field } from "../../src/map/field.js";
import { bestCandidate } from "../../src/map/start.js";

const line = (from: number, to: number, points: number): number[] =>
  Array.from({ length: points }, (_, i) => from + ((to - from) * i) / (points - 1));

const P = line(4, 84, 33);
const D = line(0, 8, 33);

/** A field of one room after another, given as functions of the gains; the variant that decides is the constraint's index. */
function fieldOf(rooms: readonly ((p: number, d: number) => number)[], p = P, d = D): Field {
  const names = ["sustained", "gain margin", "phase margin", "overshoot", "rise", "heat"] as const;
  const constraints = rooms.map((room, index) => ({
    name: names[index],
    room: Float64Array.from(d.flatMap((dGain) => p.map((pGain) => room(pGain, dGain)))),
    by: new Int32Array(p.length * d.length).fill(index),
  }));
  return { p, d, constraints };
}

const log = (ratio: number): number => (ratio > 0 ? Math.log(ratio) : -5);

/** Safe for P and D inside a rectangle, room growing away from each of its sides. */
const rectangle = (p: readonly [number, number], d: readonly [number, number]) =>
  [
    (x: number) => log(p[1] / x),
    (x: number) => log(x / p[0]),
    (_: number, y: number) => log(d[1] / y),
    (_: number, y: number) => log(y / d[0]),
  ] as const;

const share = (value: number, expected: number): number => Math.abs(value / expected - 1);

describe("the roomiest place", () => {
  // The middle of a rectangle, by logarithms: sqrt(10 x 40) = 20, sqrt(1.5 x 6) = 3; a factor of two to every side.
  it("of a rectangle is its middle by factors", () => {
    const best = bestCandidate(fieldOf(rectangle([10, 40], [1.5, 6])), []);
    expect(share(best?.p as number, 20)).toBeLessThan(0.03);
    expect(share(best?.d as number, 3)).toBeLessThan(0.03);
    expect(best?.score).toBeGreaterThan(Math.LN2 * 0.95);
    expect(best?.score).toBeLessThan(Math.LN2 * 1.02);
  });

  it("lies where it lies on even lines, on lines dense about it and far apart elsewhere", () => {
    const [p, d] = [
      [4, 9, 11, 13, 15, 17, 18, 19, 20, 21, 22, 24, 27, 31, 36, 43, 60, 84],
      [0, 1, 1.4, 1.8, 2.2, 2.5, 2.8, 3, 3.2, 3.5, 4, 4.6, 5.4, 6.5, 8],
    ];
    const even = bestCandidate(fieldOf(rectangle([10, 40], [1.5, 6])), []);
    const uneven = bestCandidate(fieldOf(rectangle([10, 40], [1.5, 6]), p, d), []);
    for (const gain of ["p", "d"] as const)
      expect(share(uneven?.[gain] as number, even?.[gain] as number)).toBeLessThan(0.04);
    for (const side of ["pUp", "pDown", "dUp", "dDown"] as const)
      expect(share(uneven?.edges[side].factor as number, even?.edges[side].factor as number)).toBeLessThan(0.06);
    expect(share(uneven?.score as number, even?.score as number)).toBeLessThan(0.05);
  });

  it("is looked for a cell away from a refused place, the cell being the one about that place", () => {
    const p = [4, 4.2, 8, 12, 16, 20, 24, 32, 40, 60, 84];
    const field = fieldOf(rectangle([10, 40], [1.5, 6]), p, D);
    const first = bestCandidate(field, []) as { p: number; d: number };
    const next = bestCandidate(field, [first]) as { p: number; d: number };
    // Cells about the place are 4 of P and 0.25 of D wide, the first one of P is 0.2.
    const [alongP, alongD] = [Math.abs(next.p - first.p), Math.abs(next.d - first.d)];
    expect(alongP >= 4 - 1e-9 || alongD >= 0.25 - 1e-9).toBe(true);
  });

  it("keeps to the middle of P where D is what limits", () => {
    const best = bestCandidate(fieldOf(rectangle([8, 72], [2, 3])), []);
    expect(share(best?.d as number, Math.sqrt(6))).toBeLessThan(0.03);
    expect(share(best?.p as number, 24)).toBeLessThan(0.03);
  });

  it("keeps to the middle of D where P is what limits", () => {
    const best = bestCandidate(fieldOf(rectangle([20, 30], [1, 6])), []);
    expect(share(best?.p as number, Math.sqrt(600))).toBeLessThan(0.02);
    expect(share(best?.d as number, Math.sqrt(6))).toBeLessThan(0.06);
  });

  it("meets no edge towards D of zero where that is safe", () => {
    const [over, under, hot] = rectangle([10, 40], [0, 4]);
    const best = bestCandidate(fieldOf([over, under, hot]), []);
    expect(share(best?.p as number, 20)).toBeLessThan(0.03);
    expect(best?.score).toBeCloseTo(Math.LN2, 1);
    expect(best?.edges.dDown).toMatchObject({ factor: null, constraint: null });
  });

  it("meets one where D of zero is not safe, however close to it the last safe place is", () => {
    // At D 0 it rings; from the first fine step on it does not.
    const best = bestCandidate(
      fieldOf([(p) => log(40 / p), (p) => log(p / 10), (_, d) => log(2 / d), (_, d) => (d > 0 ? 1 : -0.1)]),
      [],
    );
    expect(best?.d).toBeGreaterThan(0.1);
    expect(best?.d).toBeLessThan(0.5);
    expect(best?.edges.dDown.constraint?.name).toBe("overshoot");
  });

  it("takes the grid's own edge for a limit", () => {
    const best = bestCandidate(fieldOf([() => 1], line(10, 40, 16), line(1, 4, 16)), []);
    expect(share(best?.p as number, 20)).toBeLessThan(0.02);
    expect(share(best?.d as number, 2)).toBeLessThan(0.02);
    expect(best?.edges.pUp).toMatchObject({ constraint: null });
    expect(best?.edges.pUp.factor as number).toBeCloseTo(40 / (best?.p as number), 12);
  });

  it("is found in the wider of two separate regions", () => {
    const islands = (p: number) => Math.max(Math.min(log(p / 8), log(12 / p)), Math.min(log(p / 30), log(75 / p)));
    expect(share(bestCandidate(fieldOf([islands]), [])?.p as number, Math.sqrt(30 * 75))).toBeLessThan(0.03);
  });

  it("is none where nothing is safe", () => {
    expect(bestCandidate(fieldOf([() => -0.01]), [])).toBe(null);
    expect(bestCandidate(fieldOf([(p) => log(p / 40), (p) => log(20 / p)]), [])).toBe(null);
  });
});

describe("refused places", () => {
  const field = fieldOf(rectangle([10, 40], [1.5, 6]));

  it("are avoided by a grid cell", () => {
    const first = bestCandidate(field, []);
    const refused = [{ p: first?.p as number, d: first?.d as number }];
    const second = bestCandidate(field, refused);
    const cells = Math.max(
      Math.abs((second?.p as number) - refused[0].p) / (P[1] - P[0]),
      Math.abs((second?.d as number) - refused[0].d) / (D[1] - D[0]),
    );
    expect(cells).toBeGreaterThanOrEqual(1 - 1e-9);
    expect(second?.score).toBeLessThan(first?.score as number);
  });

  it("leave nothing once they cover all that was safe", () => {
    const tight = fieldOf(rectangle([19, 21], [2.9, 3.1]));
    expect(bestCandidate(tight, [])).not.toBe(null);
    expect(bestCandidate(tight, [{ p: 20, d: 3 }])).toBe(null);
  });
});

describe("edges met from there", () => {
  it("are the factors of P and D to each side, with what is met", () => {
    const best = bestCandidate(fieldOf(rectangle([10, 40], [1.5, 6])), []);
    if (best === null) throw new Error("no candidate");
    const { pUp, pDown, dUp, dDown } = best.edges;
    expect(share(best.p * (pUp.factor as number), 40)).toBeLessThan(0.01);
    expect(share(best.p * (pDown.factor as number), 10)).toBeLessThan(0.02);
    expect(share(best.d * (dUp.factor as number), 6)).toBeLessThan(0.01);
    expect(share(best.d * (dDown.factor as number), 1.5)).toBeLessThan(0.02);
    expect([pUp, pDown, dUp, dDown].map(({ constraint }) => constraint?.name)).toEqual([
      "sustained",
      "gain margin",
      "phase margin",
      "overshoot",
    ]);
  });

  it("name a grid point close by, whose limiting case is reported", () => {
    const best = bestCandidate(fieldOf(rectangle([10, 40], [1.5, 6])), []);
    const point = best?.edges.pUp.point ?? 0;
    expect(Math.abs(P[point % P.length] - 40)).toBeLessThanOrEqual(P[1] - P[0]);
  });
});
