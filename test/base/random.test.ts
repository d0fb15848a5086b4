import { describe, expect, it } from "vitest";
import { boxMuller, fillGaussian, fnv1a64, splitMix64, stream, Xoshiro128 } from "../../src/base/random.js";

const taken = <T>(count: number, next: () => T): T[] => Array.from({ length: count }, () => next());

describe("generators against published sequences", () => {
  it("SplitMix64", () => {
    // Steele, Lea and Flood, OOPSLA 2014, and S. Vigna's reference code; quoted in public material and recomputed.
    expect(taken(5, splitMix64(1234567n))).toEqual([
      6457827717110365317n,
      3203168211198807973n,
      9817491932198370423n,
      4593380528125082431n,
      16408922859458223821n,
    ]);
    expect(taken(4, splitMix64(0n))).toEqual([
      0xe220a8397b1dcdafn,
      0x6e789e6aa1b965f4n,
      0x06c45d188009454fn,
      0xf88bb8a8724c81ecn,
    ]);
  });

  it("xoshiro128**", () => {
    // D. Blackman and S. Vigna, ACM TOMS 47 (2021); quoted in public material and recomputed.
    const source = new Xoshiro128(1, 2, 3, 4);
    expect(taken(10, () => source.next())).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it("FNV-1a, 64 bits", () => {
    // G. Fowler, L.C. Noll and K.-P. Vo, test vectors of the reference page; from memory.
    expect(fnv1a64("")).toBe(0xcbf29ce484222325n);
    expect(fnv1a64("a")).toBe(0xaf63dc4c8601ec8cn);
    expect(fnv1a64("foobar")).toBe(0x85944171f73967e8n);
  });

  it("refuses a state that never leaves zero", () => {
    expect(() => new Xoshiro128(0, 0, 0, 0)).toThrow(RangeError);
  });
});

describe("streams", () => {
  it("belong to their keys alone", () => {
    const draws = (...keys: (number | string)[]) => {
      const source = stream(...keys);
      return taken(4, () => source.next()).join(" ");
    };
    expect(draws(7, "gust", 2)).toBe(draws(7, "gust", 2));
    const different = [
      draws(7, "gust", 2),
      draws(8, "gust", 2),
      draws(7, "gust", 3),
      draws(7, "guss", 2),
      draws("7", "gust", 2),
      draws("gust", 7, 2),
      draws(7, "gust"),
      draws(7, "gust2"),
      draws(),
    ];
    expect(new Set(different).size).toBe(different.length);
  });

  it("refuse a key that has no one spelling", () => {
    expect(() => stream(1, NaN)).toThrow(/keyed by NaN/);
  });
});

describe("normal numbers", () => {
  it("Box-Muller worked pairs", () => {
    // Box and Muller, Ann. Math. Stat. 29 (1958), the transform; the numbers recomputed.
    const [a, b] = boxMuller(0.5, 0.25);
    expect(a).toBeCloseTo(0, 15);
    expect(b).toBeCloseTo(1.1774100225, 10);
    const [c, d] = boxMuller(0.1, 0.1);
    expect(c).toBeCloseTo(1.7361229846, 10);
    expect(d).toBeCloseTo(1.2613671822, 10);
  });

  const COUNT = 1 << 20;
  const numbers = new Float64Array(COUNT);
  fillGaussian(numbers, stream("normal numbers", 1));
  // Bound of every check below: four standard errors, passed by chance in all but 1 of 16 000 streams.
  const BOUND = 4;

  it.each([
    // Abramowitz and Stegun / NIST tables of the normal distribution; recomputed.
    [0.75, 0.6744897502],
    [0.9, 1.2815515655],
    [0.95, 1.644853627],
    [0.975, 1.9599639845],
    [0.99, 2.326347874],
    [0.995, 2.5758293035],
    [0.999, 3.0902323062],
    [0.9999, 3.7190164855],
    // and the distribution at whole sigmas
    [0.8413447461, 1],
    [0.9772498681, 2],
    [0.998650102, 3],
  ])("a share of %d lies below %d, and above its negative", (share, quantile) => {
    const error = Math.sqrt((share * (1 - share)) / COUNT);
    const below = numbers.reduce((count, z) => count + (z < quantile ? 1 : 0), 0) / COUNT;
    const above = numbers.reduce((count, z) => count + (z > -quantile ? 1 : 0), 0) / COUNT;
    expect(Math.abs(below - share)).toBeLessThan(BOUND * error);
    expect(Math.abs(above - share)).toBeLessThan(BOUND * error);
  });

  it("mean 0, variance 1, and neighbours, partners and pairs are unrelated", () => {
    const mean = numbers.reduce((sum, z) => sum + z, 0) / COUNT;
    const variance = numbers.reduce((sum, z) => sum + z * z, 0) / COUNT - mean * mean;
    expect(Math.abs(mean)).toBeLessThan(BOUND / Math.sqrt(COUNT));
    expect(Math.abs(variance - 1)).toBeLessThan(BOUND * Math.sqrt(2 / COUNT));
    for (const lag of [1, 2, 3]) {
      let sum = 0;
      for (let i = lag; i < COUNT; i++) sum += numbers[i] * numbers[i - lag];
      expect(Math.abs(sum / (COUNT - lag))).toBeLessThan(BOUND / Math.sqrt(COUNT - lag));
    }
  });

  it("come from uniforms of 53 bits: 27 of one draw above 26 of the next, the radius from 1 less that", () => {
    const draws = stream("bits", 9);
    const bits = () => ((BigInt(draws.next()) >> 5n) << 26n) + (BigInt(draws.next()) >> 6n);
    const filled = new Float64Array(2000);
    fillGaussian(filled, stream("bits", 9));
    for (let i = 0; i < filled.length; i += 2) {
      const [u1, u2] = [Number((1n << 53n) - bits()) / 2 ** 53, Number(bits()) / 2 ** 53];
      expect([filled[i], filled[i + 1]]).toEqual([...boxMuller(u1, u2)]);
    }
  });

  it("have the bits they had when the maps in use were made", () => {
    // Recomputed with another language's own functions to 15 digits, then pinned to the bit: a change of any of them changes every map.
    const filled = new Float64Array(4);
    fillGaussian(filled, stream(1, "hard stop from a roll", 0));
    const view = new DataView(new ArrayBuffer(32));
    const hex = [...filled].map((z, i) => {
      view.setFloat64(8 * i, z);
      return view.getBigUint64(8 * i).toString(16);
    });
    expect(hex).toEqual(["3ffb76408ae0164e", "3fd02abc44fba194", "3fd9c9f301a6bef7", "3fdb95bb12775a47"]);
  });

  it("an odd length is the even one without its last number", () => {
    const odd = new Float64Array(5);
    const even = new Float64Array(6);
    fillGaussian(odd, stream(3));
    fillGaussian(even, stream(3));
    expect([...odd]).toEqual([...even.slice(0, 5)]);
  });
});
