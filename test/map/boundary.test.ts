import { describe, expect, it } from "vitest";
import {
  type BoundaryInput,
  findBoundaries,
  firstToEnd,
  type Interval,
  type VariantBoundary,
  worstInterval,
} from "../../src/map/boundary.js";
import type { Ask, TrialRequest } from "../../src/map/trials.js";
import { outcomes } from "./tables.js";

const P = Array.from({ length: 12 }, (_, i) => 5 + 5 * i); // 5 to 60
const D = [0, 2, 4, 6, 8];
const TOLERANCE = 0.005;

/** A loop whose stable set in P is known: a list of intervals per D. */
type Stable = (d: number) => readonly (readonly [number, number])[];

/** A boundary that rises with D, then folds: two intervals at D 4, nothing at D 8. */
const folding: Stable = (d) =>
  d === 0
    ? [[0, 31.7]]
    : d === 2
      ? [[0, 1000]]
      : d === 4
        ? [
            [0, 13.21],
            [22.9, 41.3],
          ]
        : d === 6
          ? [[26.4, 33.3]]
          : [];

const inside = (stable: Stable, p: number, d: number): boolean => stable(d).some(([from, to]) => p >= from && p < to);

async function find(loops: readonly Stable[], tolerance = TOLERANCE) {
  const rounds: TrialRequest[][] = [];
  const ask: Ask = async (requests) => {
    rounds.push([...requests]);
    return outcomes(requests.map(({ variant, p, d }) => inside(loops[variant], p, d)));
  };
  const grid: BoundaryInput["grid"] = new Map(
    loops.map((stable, variant) => [variant, outcomes(D.flatMap((d) => P.map((p) => inside(stable, p, d))))]),
  );
  return { found: await findBoundaries({ p: P, d: D, grid, tolerance }, ask), rounds };
}

/** That `found` lies within half a bracket of the truth and says how wide the bracket is. */
function near(found: Interval, [from, to]: readonly [number, number], tolerance: number): void {
  for (const [end, open, truth, width] of [
    [found.from, found.fromOpen, from, found.width[1]],
    [found.to, found.toOpen, to, found.width[0]],
  ] as const) {
    if (open) expect(width).toBe(0);
    else {
      expect(Math.abs(end - truth)).toBeLessThanOrEqual(0.5 * width * (1 + 1e-12));
      expect(width).toBeLessThanOrEqual(tolerance * (end + width));
      expect(width).toBeGreaterThan(0);
    }
  }
}

describe("boundaries of one variant", () => {
  it("a single one, a fold, always stable, an island, never", async () => {
    const [{ perD }] = (await find([folding])).found;
    expect(perD.map((row) => row.length)).toEqual([1, 1, 2, 1, 0]);
    expect(perD[0][0]).toMatchObject({ from: 5, fromOpen: true, toOpen: false });
    expect(perD[1]).toEqual([{ from: 5, to: 60, fromOpen: true, toOpen: true, width: [0, 0] }]);
    expect(perD[2][0]).toMatchObject({ fromOpen: true, toOpen: false });
    expect(perD[2][1]).toMatchObject({ fromOpen: false, toOpen: false });
    expect(perD[3][0]).toMatchObject({ fromOpen: false, toOpen: false });
    for (const [row, d] of D.entries())
      for (const [i, interval] of perD[row].entries()) near(interval, folding(d)[i], TOLERANCE);
  });

  it.each([0.05, 0.02, 0.005, 0.0005])("is found to %d of itself, halving at each trial", async (tolerance) => {
    const { found, rounds } = await find([folding], tolerance);
    near(found[0].perD[0][0], [0, 31.7], tolerance);
    const trials = rounds.flat().filter(({ d }) => d === 0).length;
    // A cell of 5 is halved until it is narrower than the tolerance of the P at hand.
    expect(trials).toBe(Math.ceil(Math.log2(5 / (tolerance * 31.7))));
  });

  it("asks all brackets of a round at once, and nothing on the grid again", async () => {
    const { rounds } = await find([folding, folding]);
    expect(rounds[0].length).toBe(12); // six changes along P in each of two variants
    for (const { p } of rounds.flat()) expect(P).not.toContain(p);
    const requested = rounds.flat().map(({ variant, p, d }) => `${variant} ${p} ${d}`);
    expect(new Set(requested).size).toBe(requested.length);
  });

  it("asks nothing where nothing changes", async () => {
    const { found, rounds } = await find([() => [[0, 1000]], () => []]);
    expect(rounds).toEqual([]);
    expect(found[0].perD.every(([interval]) => interval.fromOpen && interval.toOpen)).toBe(true);
    expect(found[1].perD).toEqual(D.map(() => []));
  });
});

describe("where trials of the grid were left out", () => {
  /** Without the inner points of rows beyond a P, as if a nudge had settled them. */
  const withGaps = (stable: Stable, from: number) => {
    const table = outcomes(D.flatMap((d) => P.map((p) => inside(stable, p, d))));
    for (const row of D.keys())
      for (const [column, p] of P.entries())
        if (p > from && column < P.length - 1) table.outcome[row * P.length + column] = 4;
    return table;
  };

  it("an end is found between the points that are there, to the same bits, by trials of the grid's own lines first", async () => {
    const whole = (await find([folding])).found;
    const requested: TrialRequest[] = [];
    const ask: Ask = async (requests) => {
      requested.push(...requests);
      return outcomes(requests.map(({ p, d }) => inside(folding, p, d)));
    };
    const grid = new Map([[0, withGaps(folding, 25)]]);
    const found = await findBoundaries({ p: P, d: D, grid, tolerance: TOLERANCE }, ask);
    // At D 6 both ends lie in the gap: what is not looked at is not seen.
    expect(found[0].perD.filter((_, row) => D[row] !== 6)).toEqual(whole[0].perD.filter((_, row) => D[row] !== 6));
    expect(found[0].perD[D.indexOf(6)]).toEqual([]);
    const onLines = requested.filter(({ p }) => P.includes(p));
    expect(onLines.length).toBeGreaterThan(0);
    expect(onLines.length).toBeLessThanOrEqual(2 * Math.ceil(Math.log2(P.length)));
  });
});

describe("a variant whose script does not move the axis", () => {
  const table = (codes: readonly number[]) => {
    const made = outcomes(codes.map(() => true));
    made.outcome.set(codes);
    return made;
  };
  const found = (codes: readonly number[]) =>
    findBoundaries({ p: [5, 10, 15], d: [0], grid: new Map([[4, table(codes)]]), tolerance: 0.3 }, async (requested) =>
      table(requested.map(() => 1)),
    );

  it("is marked, whether all of its trials are at rest or rounding grew in some", async () => {
    expect(await found([3, 3, 3])).toMatchObject([{ atRest: true, perD: [[{ fromOpen: true, toOpen: true }]] }]);
    expect(await found([3, 3, 1])).toMatchObject([{ atRest: true, perD: [[{ fromOpen: true, toOpen: false }]] }]);
    expect(await found([0, 2, 1])).toMatchObject([{ variant: 4, perD: [[{ fromOpen: true, toOpen: false }]] }]);
    expect((await found([0, 2, 1]))[0]).not.toHaveProperty("atRest");
  });
});

describe("the interval that every variant survives", () => {
  const closed = (from: number, to: number): Interval => ({
    from,
    to,
    fromOpen: false,
    toOpen: false,
    width: [0.1, 0.1],
  });
  const upTo = (to: number): Interval => ({ ...closed(5, to), fromOpen: true, width: [0.1, 0] });
  const onFrom = (from: number): Interval => ({ ...closed(from, 60), toOpen: true, width: [0, 0.1] });
  const everywhere: Interval = { from: 5, to: 60, fromOpen: true, toOpen: true, width: [0, 0] };
  const variants = (...rows: Interval[][]): VariantBoundary[] =>
    rows.map((row, i) => ({ variant: 10 + i, perD: [row] }));

  it("ends with the first variant that ends and begins with the last that begins", () => {
    expect(worstInterval(variants([closed(8, 40)], [closed(12, 50)], [closed(9, 30)]), 0)).toEqual({
      from: 12,
      to: 30,
      fromOpen: false,
      toOpen: false,
      fromBy: 11,
      toBy: 12,
    });
  });

  it("is open where every variant runs into the grid's edge", () => {
    expect(worstInterval(variants([everywhere], [everywhere]), 0)).toMatchObject({
      fromOpen: true,
      toOpen: true,
      fromBy: -1,
      toBy: -1,
    });
    expect(worstInterval(variants([everywhere], [upTo(33)], [onFrom(7)]), 0)).toEqual({
      from: 7,
      to: 33,
      fromOpen: false,
      toOpen: false,
      fromBy: 12,
      toBy: 11,
    });
    expect(worstInterval(variants([upTo(33)], [everywhere]), 0)).toMatchObject({
      fromOpen: true,
      to: 33,
      toOpen: false,
      toBy: 10,
    });
  });

  it("is the lowest common one of a fold", () => {
    const fold = [upTo(13), closed(23, 41)];
    expect(worstInterval(variants(fold, [everywhere]), 0)).toMatchObject({ fromOpen: true, to: 13, toBy: 10 });
    expect(worstInterval(variants(fold, [onFrom(20)]), 0)).toMatchObject({ from: 23, to: 41, fromBy: 10, toBy: 10 });
    expect(worstInterval(variants(fold, [onFrom(30)]), 0)).toMatchObject({ from: 30, to: 41, fromBy: 11, toBy: 10 });
  });

  it("does not depend on the order of the variants", () => {
    const rows = [[upTo(13), closed(23, 41)], [onFrom(20)], [closed(6, 37)]];
    for (const order of [
      [0, 1, 2],
      [2, 1, 0],
      [1, 2, 0],
    ]) {
      expect(worstInterval(variants(...order.map((i) => rows[i])), 0)).toMatchObject({
        from: 23,
        to: 37,
        fromBy: 10 + order.indexOf(0),
        toBy: 10 + order.indexOf(2),
      });
    }
  });

  it("where there is none, names the variant that has none, or the first to end", () => {
    expect(worstInterval(variants([upTo(13)], [onFrom(20)], []), 0)).toEqual({ never: 12 });
    expect(worstInterval(variants([onFrom(20)], [upTo(13)]), 0)).toEqual({ never: 11 });
    expect(worstInterval(variants([upTo(13)], [onFrom(20)]), 0)).toEqual({ never: 10 });
  });

  it("variants that end first come first, equals in their own order", () => {
    expect(firstToEnd(variants([upTo(30)], [upTo(12), closed(50, 55)], [], [upTo(30)]), 0)).toEqual([12, 11, 10, 13]);
  });
});
