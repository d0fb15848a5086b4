// Draws of numbers that go together: a Gaussian copula, whose rank correlation is 6/pi asin(r/2) and whose log-normal numbers
// have the correlation (exp(r s t) - 1) / sqrt((exp(s²) - 1)(exp(t²) - 1)) (textbooks of copulas, from memory; that ranks are
// what a joint sample must keep: R.L. Iman and W.J. Conover, Communications in Statistics B11 (1982) 311-334, from memory).
import { describe, expect, it } from "vitest";
import { drawsOf } from "../../src/airframe/draws.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { at } from "../../src/base/at.js";
import { normalShareBelow } from "../../src/base/normal.js";
import type { Spread } from "../../src/base/spread.js";
import { readYaml } from "../../src/files/yaml.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const OPTIONS = { count: 1024, seed: 3, purpose: "map", loopGain: 0.1 };
const SPREADING = changed(
  SMALL_MODEL,
  ["resistance: 75 mohm", "resistance: 75 mohm ± 40 %"],
  ["no_load_current: 0.8 A", "no_load_current: 0.8 A ± 60 %"],
  ["ct: 0.16", "ct: 0.16 ± 10 %"],
  ["cp: 0.08", "cp: 0.09 ± 5 %"],
  ["kv: 1950 rpm/V", "kv: 1850 to 2050 rpm/V"],
  ["mass: 600 g", "mass: 600 g ± 5 %"],
);
const PAIRS = [
  ["propeller.ct", "motor.resistance", 0.8],
  ["motor.resistance", "motor.no_load_current", -0.4],
  ["motor.kv", "motor.no_load_current", 0.5],
] as const;
type Pair = readonly [one: string, other: string, correlation: number];
const together = (text: string, ...pairs: readonly Pair[]) => {
  const lines = pairs.map(([one, other, r]) => `  - {one: ${one}, other: ${other}, correlation: ${r}}\n`);
  return readYaml("x.yaml", pairs.length === 0 ? text : `${text}correlations:\n${lines.join("")}`);
};
const drawn = (document: ReturnType<typeof readYaml>, options = OPTIONS) => {
  parseAirframe(document);
  const { spreads, draws } = drawsOf(document, options);
  const place = (key: string) => spreads.findIndex((one) => one.key === key);
  return {
    spread: (key: string): Spread => at(spreads, place(key)),
    column: (key: string): number[] => draws.map(({ values }) => at(values, place(key))),
  };
};
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
function correlation(one: readonly number[], other: readonly number[]): number {
  const [a, b] = [mean(one), mean(other)];
  const sum = (of: (k: number) => number) => one.reduce((total, _, k) => total + of(k), 0);
  const [ca, cb] = [(k: number) => at(one, k) - a, (k: number) => at(other, k) - b];
  return sum((k) => ca(k) * cb(k)) / Math.sqrt(sum((k) => ca(k) ** 2) * sum((k) => cb(k) ** 2));
}
const ranks = (values: readonly number[]): number[] => {
  const rising = values.map((_, k) => k).sort((a, b) => at(values, a) - at(values, b));
  const found: number[] = [];
  for (const [rank, k] of rising.entries()) found[k] = rank;
  return found;
};
/** Scores of the values of a normal or log-normal number. */
const scores = ({ law, nominal, size }: Spread, values: readonly number[]) =>
  values.map((value) =>
    law === "normal" ? (2 * (value - nominal)) / size : (2 * Math.log(value / nominal)) / Math.log(1 + size),
  );

const joint = drawn(together(SPREADING, ...PAIRS));
/** Four standard errors of a correlation of so many draws, on Fisher's scale. */
const SAMPLING = 4 / Math.sqrt(OPTIONS.count - 3);

describe("numbers that go together", () => {
  it.each(PAIRS)("%s with %s have the rank correlation of %d", (one, other, r) => {
    const found = correlation(ranks(joint.column(one)), ranks(joint.column(other)));
    const expected = (6 / Math.PI) * Math.asin(r / 2);
    expect(Math.abs(Math.atanh(found) - Math.atanh(expected))).toBeLessThan(SAMPLING);
  });

  it("have the correlation of their scores, and of log-normal numbers themselves the closed form", () => {
    const [ct, ohms, current] = ["propeller.ct", "motor.resistance", "motor.no_load_current"] as const;
    const scoresOf = (key: string) => scores(joint.spread(key), joint.column(key));
    expect(Math.abs(Math.atanh(correlation(scoresOf(ct), scoresOf(ohms))) - Math.atanh(0.8))).toBeLessThan(SAMPLING);
    const [s, t] = [Math.log(1.4) / 2, Math.log(1.6) / 2];
    const expected = Math.expm1(-0.4 * s * t) / Math.sqrt(Math.expm1(s ** 2) * Math.expm1(t ** 2));
    expect(joint.spread(ohms).law).toBe("log-normal");
    expect(Math.abs(correlation(joint.column(ohms), joint.column(current)) - expected)).toBeLessThan(SAMPLING);
  });

  it("that are no pair go together by what the others leave them, here nothing", () => {
    const found = correlation(ranks(joint.column("propeller.ct")), ranks(joint.column("motor.kv")));
    expect(Math.abs(found)).toBeLessThan(SAMPLING);
  });

  it.each(["propeller.ct", "motor.resistance", "motor.no_load_current", "motor.kv"])(
    "%s keeps its own law: no share is further off than chance allows",
    (key) => {
      const { law, nominal, size } = joint.spread(key);
      const values = joint.column(key);
      const shares = (
        law === "uniform"
          ? values.map((value) => 0.5 + (value - nominal) / (2 * size))
          : scores(joint.spread(key), values).map(normalShareBelow)
      ).sort((a, b) => a - b);
      const off = shares.map((share, k) => Math.max(share - k / shares.length, (k + 1) / shares.length - share));
      // Kolmogorov and Smirnov: 99.9 of 100 samples of independent values lie within 1.95 / sqrt(n).
      expect(Math.max(...off)).toBeLessThan(1.95 / Math.sqrt(shares.length));
      expect(mean(shares)).toBeCloseTo(0.5, 2);
    },
  );

  it("of which two are one: the same score in every draw", () => {
    for (const sign of [1, -1]) {
      const { spread, column } = drawn(together(SPREADING, ["propeller.ct", "motor.resistance", sign]));
      const [one, other] = ["propeller.ct", "motor.resistance"].map((key) => scores(spread(key), column(key)));
      for (const [k, score] of (one ?? []).entries())
        expect(Math.abs(at(other ?? [], k) - sign * score)).toBeLessThan(5e-4);
    }
  });

  it("hold a tight ratio in few draws", () => {
    const { spread, column } = drawn(together(SPREADING, ["propeller.ct", "frame.mass", 0.995]), {
      ...OPTIONS,
      count: 64,
    });
    const [ct, mass] = ["propeller.ct", "frame.mass"].map((key) => scores(spread(key), column(key)));
    const apart = (ct ?? []).map((score, k) => score - at(mass ?? [], k));
    const width = Math.sqrt(mean(apart.map((value) => value ** 2)));
    // sqrt(2 - 2 r) is 0.1; of 64 draws within 3 of its standard errors, 1 / sqrt(128)
    expect(Math.abs(width / 0.1 - 1)).toBeLessThan(3 / Math.sqrt(128));
  });
});

describe("columns of a model in which numbers go together", () => {
  const keys = ["frame.mass", "propeller.ct", "propeller.cp", "motor.kv", "motor.resistance", "motor.no_load_current"];
  const plain = drawn(together(SPREADING));
  const same = (one: ReturnType<typeof drawn>, other: ReturnType<typeof drawn>) =>
    keys.filter((key) => one.column(key).every((value, k) => value === at(other.column(key), k)));

  it("are those of the model without, to the bit, for every number that goes with none, and for the first that does", () => {
    expect(same(plain, joint)).toEqual(["frame.mass", "propeller.ct", "propeller.cp"]);
  });

  it("stay where a pair elsewhere is added, or the pairs stand in another order", () => {
    const more = drawn(together(SPREADING, ["propeller.cp", "frame.mass", 0.4], ...[...PAIRS].reverse()));
    expect(same(joint, more)).toEqual(keys.filter((key) => key !== "propeller.cp"));
  });

  it("of two versions with the same pairs are the same but for the number that was changed, and those after it that go with it", () => {
    const other = drawn(together(SPREADING.replace("75 mohm ± 40 %", "70 mohm ± 40 %"), ...PAIRS));
    expect(same(joint, other)).toEqual(["frame.mass", "propeller.ct", "propeller.cp", "motor.kv"]);
    // The underlying score of the changed number is drawn anew, that of the current is the same in both.
    const current = drawn(
      together(SPREADING.replace("0.16 ± 10 %", "0.16 ± 9 %"), ["motor.kv", "motor.no_load_current", 0.5]),
    );
    expect(same(current, drawn(together(SPREADING, at(PAIRS, 2))))).toEqual(
      keys.filter((key) => key !== "propeller.ct"),
    );
  });

  it("with another correlation are made of the same independent scores", () => {
    const weaker = drawn(together(SPREADING, ["propeller.ct", "motor.resistance", 0.3]));
    const stronger = drawn(together(SPREADING, ["propeller.ct", "motor.resistance", 0.9]));
    const own = (of: ReturnType<typeof drawn>, r: number) => {
      const [ct, ohms] = ["propeller.ct", "motor.resistance"].map((key) => scores(of.spread(key), of.column(key)));
      return (ohms ?? []).map((score, k) => (score - r * at(ct ?? [], k)) / Math.sqrt(1 - r * r));
    };
    const [one, other] = [own(weaker, 0.3), own(stronger, 0.9)];
    for (const [k, score] of one.entries()) expect(at(other, k)).toBeCloseTo(score, 9);
  });
});

describe("values that a key's range or a craft excludes", () => {
  const wide = SPREADING.replace("sensing: {", "wash: {revolutions: 35 ± 12, correlation: 20 % ± 15 %}\nsensing: {");

  it("are drawn again within the range, with the others as they are", () => {
    const document = together(wide, ["wash.revolutions", "wash.correlation", 0.6]);
    const { column } = drawn(document);
    const [turns, alike] = [column("wash.revolutions"), column("wash.correlation")];
    expect([Math.min(...turns) >= 20, Math.max(...turns) <= 50, Math.min(...alike) >= 0]).toEqual([true, true, true]);
    expect(correlation(ranks(turns), ranks(alike))).toBeGreaterThan(0.5);
    expect(turns.filter((value) => value > 20 && value < 50).length / turns.length).toBeGreaterThan(0.99);
  });

  it("are drawn again all at once, and still go together", () => {
    // about z no body turns harder than about x and y together, 3.6e-3
    const text = SPREADING.replace("zz: 3.2e-3 kg m^2", "zz: 3.2e-3 kg m^2 ± 0.5e-3 kg m^2");
    const document = together(text, ["frame.inertia.zz", "frame.mass", 0.9]);
    const { redrawn } = drawsOf(document, OPTIONS);
    expect(redrawn).toBeGreaterThan(20);
    const { column } = drawn(document);
    expect(Math.max(...column("frame.inertia.zz"))).toBeLessThan(3.6e-3);
    expect(correlation(column("frame.inertia.zz"), column("frame.mass"))).toBeGreaterThan(0.8);
  });
});

it("a pair that fixes a ratio makes narrow what depends on the ratio, and wide what depends on the product", () => {
  // Thrust over inertia is what a log tells; the band of the boundary follows it.
  const text = changed(SPREADING, ["inertia: 4.2e-6 kg m^2", "inertia: 4.2e-6 kg m^2 ± 10 %"]);
  const width = (r: number, of: (ct: number, inertia: number) => number) => {
    const { column } = drawn(together(text, ["propeller.ct", "propeller.inertia", r]));
    const inertia = column("propeller.inertia");
    const values = column("propeller.ct").map((ct, k) => Math.log(of(ct, at(inertia, k))));
    return Math.sqrt(mean(values.map((value) => (value - mean(values)) ** 2)));
  };
  const ratio = (ct: number, inertia: number) => ct / inertia;
  // σ of a ratio of two numbers of ± 10 %: 0.05 sqrt(2 - 2 r)
  expect(width(0.9, ratio) / (0.05 * Math.sqrt(0.2))).toBeCloseTo(1, 1);
  expect(width(0, ratio) / width(0.9, ratio)).toBeGreaterThan(2.9);
  expect(width(0.9, (ct, inertia) => ct * inertia)).toBeGreaterThan(1.3 * width(0, (ct, inertia) => ct * inertia));
});
