// Of several stable ranges the one that counts: slivers below useful ground, substantial ground below more of it.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { usefulRange, type WorstInterval } from "../../src/map/boundary.js";
import { usefulFirst } from "../../src/map/useful.js";

const range = (from: number, to: number) => ({ from, to });
const closed = (from: number, to: number): WorstInterval => ({
  from,
  to,
  fromOpen: false,
  toOpen: false,
  fromBy: 1,
  toBy: 2,
});

describe("the range that counts", () => {
  it("is not a sliver at the low end, which is reported as well", () => {
    // Much I: stable up to P 3.2, again from 5 to 64.
    expect(usefulRange([closed(2, 3.2), closed(5, 64)])).toEqual({ ...closed(5, 64), others: [closed(2, 3.2)] });
  });

  it("is the lower of two where a pilot would find room in it on the way up", () => {
    expect(usefulRange([closed(2, 13), closed(23, 64)])).toEqual({ ...closed(2, 13), others: [closed(23, 64)] });
  });

  it("is half as wide as the widest or wider, as a factor in P", () => {
    expect(usefulFirst([range(1, 4), range(5, 80)])[0]).toEqual(range(1, 4)); // 4 = sqrt(16)
    expect(usefulFirst([range(1, 3.99), range(5, 80)])[0]).toEqual(range(5, 80));
  });

  it("none of none, the only one of one", () => {
    expect(usefulRange([])).toBe(null);
    expect(usefulRange([closed(3, 4)])).toEqual(closed(3, 4));
  });

  it("leaves no range out, has none of its width below it, and keeps the others in order", () => {
    const ends = fc.uniqueArray(fc.integer({ min: 1, max: 500 }), { minLength: 2, maxLength: 9 });
    fc.assert(
      fc.property(ends, (values) => {
        const sorted = [...values].sort((a, b) => a - b);
        const ranges = Array.from({ length: sorted.length >> 1 }, (_, k) =>
          range(sorted[2 * k] as number, sorted[2 * k + 1] as number),
        );
        const [first, ...rest] = usefulFirst(ranges);
        expect([first, ...rest].sort((a, b) => (a?.from ?? 0) - (b?.from ?? 0))).toEqual(ranges);
        expect([...rest].sort((a, b) => a.from - b.from)).toEqual(rest);
        const width = (one: { from: number; to: number }) => Math.log(one.to / one.from);
        const widest = Math.max(...ranges.map(width));
        expect(width(first as never)).toBeGreaterThanOrEqual(0.5 * widest * (1 - 1e-12));
        for (const one of rest) if (one.to < (first?.from ?? 0)) expect(width(one)).toBeLessThan(0.5 * widest);
      }),
    );
  });
});
