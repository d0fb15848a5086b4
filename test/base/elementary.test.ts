import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { atan2, cos, exp, ln, pow, sin } from "../../src/base/elementary.js";
import { digits, exactCos, exactExp, exactLn, exactSin, fixed, PI, ulpsFrom } from "./exact.js";

// fdlibm states errors below 1 ulp for all five.
const WITHIN = 1;
const PAIRS = { seed: 20260101, numRuns: 2000 };
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const evenly = (min: number, max: number) => fc.nat(0xffffffff).map((n) => min + (max - min) * (n / 0xffffffff));

describe("the oracle itself", () => {
  it("has the published digits of pi, e, ln 2 and two angles", () => {
    // Any table of constants (Abramowitz and Stegun, table 1.1); from memory, recomputed by the oracle.
    expect(digits(PI, 50)).toBe("3.14159265358979323846264338327950288419716939937510");
    expect(digits(exactExp(fixed(1)), 50)).toBe("2.71828182845904523536028747135266249775724709369995");
    expect(digits(exactLn(fixed(2), 0.7), 50)).toBe("0.69314718055994530941723212145817656807550013436025");
    expect(digits(exactSin(PI / 3n), 50)).toBe("0.86602540378443864676372317075293618347140262690519");
    expect(digits(exactCos(PI / 4n), 50)).toBe("0.70710678118654752440084436210484903928483593768847");
  });
});

describe("within one unit in the last place of the exact value", () => {
  const holds = (value: number, exact: bigint): void => {
    expect(Math.abs(ulpsFrom(exact, value))).toBeLessThan(WITHIN);
  };

  it("exp", () => {
    fc.assert(
      fc.property(evenly(-40, 40), (x) => holds(exp(x), exactExp(fixed(x)))),
      PAIRS,
    );
  });

  it("ln, far from 1 and near it", () => {
    fc.assert(
      fc.property(between(1e-9, 1e9), (x) => holds(ln(x), exactLn(fixed(x), Math.log(x)))),
      PAIRS,
    );
    fc.assert(
      fc.property(evenly(0.7, 1.5), (x) => {
        fc.pre(x !== 1);
        holds(ln(x), exactLn(fixed(x), Math.log(x)));
      }),
      PAIRS,
    );
  });

  it("sin and cos, up to a hundred thousand radians", () => {
    for (const largest of [4, 1e5, 8e5]) {
      fc.assert(
        fc.property(evenly(-largest, largest), (x) => {
          holds(sin(x), exactSin(fixed(x)));
          holds(cos(x), exactCos(fixed(x)));
        }),
        PAIRS,
      );
    }
  });

  it("sin and cos where they vanish: next to every kind of multiple of a quarter turn", () => {
    fc.assert(
      fc.property(fc.integer({ min: -500000, max: 500000 }), (n) => {
        fc.pre(n !== 0);
        const x = (n * Math.PI) / 2;
        holds(sin(x), exactSin(fixed(x)));
        holds(cos(x), exactCos(fixed(x)));
      }),
      PAIRS,
    );
  });

  it("sin and cos at the two worst multiples of a scan of all: one cancels most, one needs the last piece of pi", () => {
    for (const n of [204551, 263205]) {
      const x = (n * Math.PI) / 2;
      holds(sin(x), exactSin(fixed(x)));
      holds(cos(x), exactCos(fixed(x)));
    }
  });

  it("pow", () => {
    fc.assert(
      fc.property(evenly(0.05, 10), evenly(-20, 20), (x, y) => {
        const power = (exactLn(fixed(x), Math.log(x)) * fixed(y)) >> 320n;
        holds(pow(x, y), exactExp(power));
      }),
      PAIRS,
    );
  });
});

describe("agreement with the engine's own functions, which may differ by a unit or two", () => {
  const near = (ours: number, engine: number): void => {
    if (ours === engine) return; // infinities too
    expect(Math.abs(ours - engine)).toBeLessThanOrEqual(2 * 2.220446049250313e-16 * Math.abs(engine) + 5e-324);
  };

  it("over the whole range of doubles", () => {
    fc.assert(
      fc.property(between(-746, 710), between(1e-310, 1e308), (x, y) => {
        near(exp(x), Math.exp(x));
        near(ln(y), Math.log(y));
      }),
      PAIRS,
    );
    fc.assert(
      fc.property(between(5e-324, 1e308), between(-30, 30), (x, y) => near(pow(x, y), x ** y)),
      PAIRS,
    );
  });
});

describe("ends of the range", () => {
  it("exact values", () => {
    expect([exp(0), ln(1), sin(0), cos(0), pow(7, 0), pow(1, 1e300), pow(2, 10), pow(9, 0.5)]).toEqual([
      1, 0, 0, 1, 1, 1, 1024, 3,
    ]);
    expect([pow(2, -1074), pow(2, 1023), pow(5e-324, 1), exp(-745.13)]).toEqual([5e-324, 2 ** 1023, 5e-324, 5e-324]);
  });

  it("overflow and underflow", () => {
    expect([exp(710), exp(-746), exp(Infinity), exp(-Infinity)]).toEqual([Infinity, 0, Infinity, 0]);
    expect([pow(10, 309), pow(10, -324.5), pow(1e300, 1e300)]).toEqual([Infinity, 0, Infinity]);
    expect([ln(0), ln(Infinity), ln(-1), exp(NaN), sin(NaN), cos(Infinity)]).toEqual([
      -Infinity,
      Infinity,
      NaN,
      NaN,
      NaN,
      NaN,
    ]);
  });

  it("refuses what it cannot do well", () => {
    expect(() => sin(1e6)).toThrow(/beyond 823549/);
    expect(() => pow(0, 2)).toThrow(/above 0/);
    expect(() => pow(-1, 2)).toThrow(/above 0/);
    expect(() => pow(2, NaN)).toThrow(/finite exponent/);
  });
});

describe("atan2", () => {
  it("is within 2 ulp of the engine's over a fan of points (the engine's own is the reference)", () => {
    for (let k = 0; k < 4000; k++) {
      const angle = -Math.PI + (2 * Math.PI * (k + 0.5)) / 4000;
      const radius = 10 ** ((k % 41) - 20);
      const [y, x] = [radius * Math.sin(angle), radius * Math.cos(angle)];
      const expected = Math.atan2(y, x);
      expect(Math.abs(atan2(y, x) - expected), `${y} ${x}`).toBeLessThanOrEqual(
        2 * 2 ** -52 * Math.max(Math.abs(expected), 2 ** -52),
      );
    }
  });

  it("knows the axes", () => {
    expect([atan2(0, 1), atan2(1, 0), atan2(0, -1), atan2(-1, 0), atan2(0, 0)]).toEqual([
      0,
      Math.PI / 2,
      Math.PI,
      -Math.PI / 2,
      0,
    ]);
    expect(atan2(Number.NaN, 1)).toBeNaN();
    expect(atan2(1, 1)).toBe(Math.PI / 4);
  });
});
