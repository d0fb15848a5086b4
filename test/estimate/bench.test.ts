// A bench table in place of estimates: against published worked examples, and against tables made from a known truth.
import { describe, expect, it } from "vitest";
import { benched } from "../../src/estimate/bench.js";
import { BENCH_KEYS, type BenchKey } from "../../src/estimate/numbers.js";
import { noisyTable, type Truth } from "./bench-rows.js";
import { binomialBounds } from "./leave-one-out.js";

const TRUTH: Truth = { kv: 1950, resistance: 0.075, noLoadCurrent: 0.8, ct: 0.15, cp: 0.085, diameter: 0.127 };

/** Volts, rad/s, A, N m and N in steady rotation: the root of kQ w^2 + b w = c, b = Kt Ke/R, c = Kt (V/R - i0). */
function closedForm(volts: number, kv: number, resistance: number, noLoad: number, kT: number, kQ: number): number[] {
  const constant = 60 / (2 * Math.PI * kv);
  const [b, c] = [constant ** 2 / resistance, constant * (volts / resistance - noLoad)];
  const speed = (Math.sqrt(b * b + 4 * kQ * c) - b) / (2 * kQ);
  return [volts, speed, (volts - constant * speed) / resistance, kQ * speed ** 2, kT * speed ** 2];
}

describe("two worked examples", () => {
  // Rows as printed, to four to seven digits; the second set's fourth row by the closed form it was made with. Drela's first-order motor (MIT 2007) with loads of the UIUC Propeller Database, solved elsewhere; recomputed.
  const INCH = 0.0254;
  it.each([
    {
      example: "KV 2300, 60 mohm, 0.8 A on a 5.0x3.75",
      diameter: 5 * INCH,
      truth: { kv: 2300, resistance: 0.06, noLoadCurrent: 0.8, ct: 0.129589, cp: 0.089348 },
      rows: [
        [3.7, 843.5017, 3.29821, 0.010372, 0.744271],
        [7.4, 1635.1076, 10.18748, 0.038976, 2.796741],
        [11.1, 2375.5801, 20.61508, 0.08227, 5.903354],
        [14.8, 3073.7087, 33.97278, 0.137729, 9.882912],
      ],
    },
    {
      example: "KV 920, 120 mohm, 0.5 A on an 8x3.8",
      diameter: 8 * INCH,
      truth: { kv: 920, resistance: 0.12, noLoadCurrent: 0.5, ct: 0.1048, cp: 0.0447 },
      rows: [
        [3.7, 340.7928, 1.3557, 0.008882, 0.64389],
        [7.4, 669.0255, 3.7978, 0.03423, 2.48152],
        [11.1, 981.5517, 7.5985, 0.07368, 5.34145],
        closedForm(14.8, 920, 0.12, 0.5, 5.544118e-6, 7.647554e-8),
      ],
    },
  ])("$example", ({ diameter, truth, rows }) => {
    const table = rows.map(([volts, speed, current, torque, thrust]) => ({ volts, speed, current, torque, thrust }));
    for (const without of [[], ["torque"]] as const) {
      const taken = table.map((row) => ({ ...row, ...Object.fromEntries(without.map((key) => [key, undefined])) }));
      const found = benched({ rows: taken, unused: [] }, diameter);
      for (const key of BENCH_KEYS)
        expect([key, Math.abs((found[key]?.value ?? 0) / truth[key] - 1) < 3e-3], `${found[key]?.value}`).toEqual([
          key,
          true,
        ]);
      // with no scatter the meters' accuracy is left: rows that fit a line exactly are no proof of the meters
      for (const key of BENCH_KEYS) expect(found[key]?.spread).toBeGreaterThan(0.009);
    }
  });
});

describe("two hundred tables of a known truth, by meters that are off", () => {
  const tables = Array.from({ length: 200 }, (_, seed) => seed);
  const [least, most] = binomialBounds(tables.length, 0.95, 0.002); // ten counts are held against it

  it.each([
    ["with torque", true],
    ["without", false],
  ])("%s: each number lies within its spread as often as it says", (_, torque) => {
    const held: Record<BenchKey, number> = { ct: 0, cp: 0, kv: 0, resistance: 0, noLoadCurrent: 0 };
    for (const seed of tables) {
      const found = benched(noisyTable(TRUTH, seed, { scatter: 0.02, off: true, torque }), TRUTH.diameter);
      for (const key of BENCH_KEYS) {
        const estimate = found[key];
        if (estimate === undefined) continue;
        if (Math.abs(Math.log(TRUTH[key] / estimate.value)) <= Math.log(1 + estimate.spread)) held[key]++;
      }
    }
    // KV and resistance hold a speed controller's bent duty as well, which these tables have not
    const most95 = (key: BenchKey) =>
      key === "ct" || (torque && key === "cp") || key === "noLoadCurrent" ? most : tables.length;
    for (const key of BENCH_KEYS)
      expect([key, held[key] >= least && held[key] <= most95(key)], `${held[key]} of ${tables.length}`).toEqual([
        key,
        true,
      ]);
  });
});
