// Complete models drawn from spreads; propagation held against the worked examples of JCGM 101:2008, 9.2 (from memory,
// recomputed with four million draws elsewhere).

import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { LOOP_GAIN, spreadsOf } from "../../src/airframe/drawn.js";
import { airframeAt, drawsOf } from "../../src/airframe/draws.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { figureOfMerit } from "../../src/airframe/rotor.js";
import { valueAt, valueAtScore } from "../../src/airframe/spread-values.js";
import { at } from "../../src/base/at.js";
import { hypercubeColumn } from "../../src/base/latin-hypercube.js";
import { normalQuantile } from "../../src/base/normal.js";
import type { Spread } from "../../src/base/spread.js";
import { readDocument } from "../../src/files/read.js";
import { readYaml } from "../../src/files/yaml.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const OPTIONS = { count: 64, seed: 1, purpose: "map", loopGain: 0.1 };
/** Without its spreads. */
const SANDPIPER = readFileSync("models/sandpiper-r1.yaml", "utf8").replace(/ ± [\d.]+ (%|g|mm)/g, "");
const small = (...pairs: [string, string][]) => readYaml("x.yaml", changed(SMALL_MODEL, ...pairs));
const spreading = small(
  ["resistance: 75 mohm", "resistance: 75 mohm ± 40 %"],
  ["ct: 0.16", "ct: 0.16 ± 10 %"],
  ["kv: 1950 rpm/V", "kv: 1850 to 2050 rpm/V"],
);
const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);

describe("a model with spreads", () => {
  it("is the same model as without, and carries them", () => {
    const { spreads, ...nominal } = parseAirframe(spreading);
    expect(nominal).toEqual(parseAirframe(small()));
    expect(spreads?.map(({ key, law }) => [key, law])).toEqual([
      ["propeller.ct", "normal"],
      ["motor.kv", "uniform"],
      ["motor.resistance", "log-normal"],
    ]);
    expect(parseAirframe(small()).spreads).toBeUndefined();
  });

  it("is drawn with the number as median, and 95 of 100 within the spread", () => {
    const { spreads, draws } = drawsOf(spreading, { ...OPTIONS, count: 1000 });
    const column = (key: string) =>
      sorted(draws.map(({ values }) => values[spreads.findIndex((one) => one.key === key)] ?? 0));
    const ohms = column("motor.resistance");
    expect((at(ohms, 499) + at(ohms, 500)) / 2).toBeCloseTo(0.075, 4);
    expect(ohms.filter((one) => one > 0.075 / 1.4 && one < 0.075 * 1.4).length / 1000).toBeCloseTo(0.954, 2);
    const ct = column("propeller.ct");
    expect(ct.filter((one) => Math.abs(one - 0.16) < 0.016).length / 1000).toBeCloseTo(0.954, 2);
    const gain = column(LOOP_GAIN);
    expect(gain.filter((one) => Math.abs(one - 1) < 0.1).length / 1000).toBeCloseTo(0.954, 2);
    const kv = column("motor.kv");
    expect(at(kv, 0) / ((2 * Math.PI) / 60)).toBeGreaterThan(1850);
    expect(at(kv, 999) / ((2 * Math.PI) / 60)).toBeLessThan(2050);
  });

  it("keeps each draw's numbers when another spread is added", () => {
    const before = drawsOf(spreading, OPTIONS);
    const more = small(
      ["resistance: 75 mohm", "resistance: 75 mohm ± 40 %"],
      ["ct: 0.16", "ct: 0.16 ± 10 %"],
      ["kv: 1950 rpm/V", "kv: 1850 to 2050 rpm/V"],
      ["no_load_current: 0.8 A", "no_load_current: 0.8 A ± 50 %"],
    );
    const after = drawsOf(more, OPTIONS);
    for (const [row, { airframe }] of before.draws.entries()) {
      expect(after.draws[row]?.airframe.motor.resistance).toBe(airframe.motor.resistance);
      expect(after.draws[row]?.airframe.propeller.ct).toBe(airframe.propeller.ct);
    }
  });

  it("draws other numbers for another seed, purpose, or written number", () => {
    const first = drawsOf(spreading, OPTIONS).draws[0]?.airframe.motor.resistance;
    for (const other of [
      drawsOf(spreading, { ...OPTIONS, seed: 2 }),
      drawsOf(spreading, { ...OPTIONS, purpose: "start" }),
      drawsOf(small(["resistance: 75 mohm", "resistance: 75 mohm ± 41 %"]), OPTIONS),
    ])
      expect(other.draws[0]?.airframe.motor.resistance).not.toBe(first);
  });

  it("moves a table with ct and cp, and a part's mass at every rotor at once", () => {
    const text = SANDPIPER.replace("ct: 0.156\n", "ct: 0.156 ± 10 %\n").replace(
      "cylinder, mass: 33 g",
      "cylinder, mass: 33 g ± 3 g",
    );
    const { spreads, draws } = drawsOf(readYaml("x.yaml", text), { ...OPTIONS, loopGain: 0 });
    const nominal = parseAirframe(readDocument("models/sandpiper-r1.yaml"));
    expect(spreads.map(({ key }) => key)).toEqual(["frame.parts[2].mass", "propeller.ct"]);
    for (const { values, airframe } of draws) {
      expect(airframe.mass - nominal.mass).toBeCloseTo(4 * ((values[0] ?? 0) - 0.033), 12);
      expect(airframe.centreOfMass[0]).toBeLessThan(0); // the battery still pulls it to the rear
      expect(airframe.propeller.zeroThrustAdvance).toBe(nominal.propeller.zeroThrustAdvance);
    }
  });

  it("turns the body by the loop gain more for the same torque", () => {
    const { draws } = drawsOf(small(), OPTIONS);
    for (const { values, airframe } of draws) expect(airframe.inertia.xx).toBeCloseTo(1.2e-3 / (values[0] ?? 0), 15);
  });

  it("draws again what no craft can have, and counts it", () => {
    // about z no body turns harder than about x and y together, 3.6e-3
    const heavy = small(["zz: 3.2e-3 kg m^2", "zz: 3.2e-3 kg m^2 ± 0.5e-3 kg m^2"]);
    const { draws, redrawn } = drawsOf(heavy, OPTIONS);
    expect(draws).toHaveLength(64);
    expect(redrawn).toBeGreaterThan(0);
  });
});

describe("ct and cp, each with a wide spread of its own", () => {
  const wide = small(["ct: 0.16", "ct: 0.16 ± 40 %"], ["cp: 0.08", "cp: 0.09 ± 55 %"]);

  it("are drawn as pairs that a measured propeller may have, which redraws and does not count", () => {
    const { draws, redrawn } = drawsOf(wide, { ...OPTIONS, count: 400 });
    const merits = draws.map(({ airframe }) => figureOfMerit(airframe.propeller.ct, airframe.propeller.cp));
    expect(Math.max(...merits)).toBeLessThanOrEqual(0.85);
    expect(Math.max(...merits)).toBeGreaterThan(0.75);
    expect(redrawn).toBe(0);
  });
});

describe("a model at scores", () => {
  const spreads = spreadsOf(spreading);
  const [ct, kv, ohms] = spreads.map(({ key }) => key);

  it("is the model as it is written at 0, and has each number where its law says", () => {
    expect([ct, kv, ohms]).toEqual(["propeller.ct", "motor.kv", "motor.resistance"]);
    const { spreads: _, ...written } = parseAirframe(spreading);
    expect(airframeAt(spreading, spreads, [0, 0, 0])).toEqual(written);
    const moved = airframeAt(spreading, spreads, [2, 1, -2]);
    expect(moved?.propeller.ct).toBeCloseTo(0.176, 12);
    // 84.13 of 100 lie below a score of 1 (Abramowitz & Stegun 1964, table 26.1), here between 1850 and 2050
    expect(60 / (2 * Math.PI) / (moved?.motor.constant ?? 0)).toBeCloseTo(1850 + 200 * 0.841344746, 5);
    expect(moved?.motor.resistance).toBeCloseTo(0.075 / 1.4, 12);
    expect(airframeAt(spreading, spreads.slice(2), [-2])?.motor).toEqual({
      ...written.motor,
      resistance: moved?.motor.resistance,
    });
  });

  it("has none where no craft can have the values, or a key's range ends", () => {
    expect(airframeAt(spreading, spreads, [-20, 0, 0])).toBe(null);
    expect(airframeAt(spreading, spreads, [12, 0, 0])).toBe(null);
  });

  it("meets the draws: the score of a drawn share has the drawn value", () => {
    for (const spread of spreads)
      for (const share of [1e-4, 0.1, 0.5, 0.7, 0.999])
        expect(valueAtScore(spread, normalQuantile(share)) / valueAt(spread, share)).toBeCloseTo(1, 14);
  });
});

describe("propagation", () => {
  const N = 100_000;
  const law = (one: Pick<Spread, "law" | "size">): Spread => ({ key: "", nominal: 0, least: -99, most: 99, ...one });
  const columnOf = (spread: Spread, key: number) => hypercubeColumn(N, 1, key).map((u) => valueAt(spread, u));
  const interval = (columns: readonly number[][]) => {
    const sums = sorted(at(columns, 0).map((_, row) => columns.reduce((sum, column) => sum + at(column, row), 0)));
    return [at(sums, 0.025 * N), at(sums, 0.975 * N)] as const;
  };
  const NORMAL = law({ law: "normal", size: 2 });
  const RECTANGLE = law({ law: "uniform", size: Math.sqrt(3) });

  it.each([
    ["four normals, 9.2.2", [NORMAL, NORMAL, NORMAL, NORMAL], 3.92, 0.04],
    ["four rectangles, 9.2.3", [RECTANGLE, RECTANGLE, RECTANGLE, RECTANGLE], 3.8794, 0.04],
    [
      "one of them ten times as wide, 9.2.4",
      [RECTANGLE, RECTANGLE, RECTANGLE, law({ law: "uniform", size: 10 * Math.sqrt(3) })],
      17.0,
      0.1,
    ],
  ])("%s: the 95 %% interval", (_, spreads, half, within) => {
    const [low, high] = interval(spreads.map(columnOf));
    expect(Math.abs(high - half)).toBeLessThan(within);
    expect(Math.abs(low + half)).toBeLessThan(within);
  });
});
