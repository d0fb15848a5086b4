import { describe, expect, it } from "vitest";
import { trendsOf } from "../../src/trend/follow.js";
import type { TrendRecord } from "../../src/trend/format.js";
import type { Trend } from "../../src/trend/trend.js";
import { causeWords, findingWords, movedWords } from "../../src/words/trend-words.js";
import { record, startWith } from "./records.js";

function onlyTrend(records: readonly TrendRecord[]): Trend {
  const [trend, ...others] = trendsOf(records);
  if (trend === undefined || others.length > 0) throw new Error(`${others.length + 1} trends`);
  return trend;
}

const said = (trend: Trend) =>
  trend.steps.map((step) => [
    causeWords(trend, step),
    ...movedWords(trend, step, "roll").map(({ text }) => text.replaceAll("\u00a0", " ")),
  ]);

describe("a step", () => {
  it.each([
    [40.39, 0],
    [40.41, 1],
    [39.61, 0],
    [39.59, 1],
  ])("is a move of a boundary beyond 1 %%: 40 to %f", (p, steps) => {
    const trend = onlyTrend([record(), record({ version: "r2", date: "2026-02-01", boundary: [30, p, 50] })]);
    expect(trend.steps).toHaveLength(steps);
  });

  // 20 log10 1.01 = 0.0864 dB, and a hundredth of a radian is 0.573 deg
  it.each([
    [{ gainUp: 10.08, gainDown: null, phase: 50.56 }, []],
    [{ gainUp: 10.09, gainDown: null, phase: 50.58 }, ["gain margin rises 0.09 dB", "phase margin rises 0.58°"]],
  ])("of margins is as large in dB and degrees: %j", (margins, words) => {
    const trend = onlyTrend([
      record(),
      record({ version: "r2", date: "2026-02-01", roll: { start: startWith({ margins }) } }),
    ]);
    expect(said(trend).flatMap(([, ...rest]) => rest)).toEqual(words);
  });

  it("names the version that did it and the line that moved furthest", () => {
    const trend = onlyTrend([
      record({ date: "2026-03-01", version: "r10", boundary: [30, 20, 50] }),
      record({ date: "2026-03-01", version: "r2" }),
      record(),
    ]);
    expect(said(trend)).toEqual([["r10", "boundary falls 50 % at D 1"]]);
    expect(findingWords(trend).replaceAll("\u00a0", " ")).toBe(
      "Dunlin r10: roll boundary falls 50 % at D 1 since 2026-03-01",
    );
  });

  it("is not counted at a D where no map has safe ground", () => {
    const trend = onlyTrend([record(), record({ version: "r2", date: "2026-02-01", boundary: [30, 40, 20] })]);
    expect(trend.steps).toEqual([]);
  });

  it("from or to what lies above the grid is at least so large", () => {
    const trend = onlyTrend([
      record({ boundary: [30, "above", 50] }),
      record({ version: "r2", date: "2026-02-01", boundary: [30, 30, 50] }),
      record({ version: "r3", date: "2026-03-01", boundary: [30, "none", 50] }),
      record({ version: "r4", date: "2026-04-01", boundary: [30, 59.9, 50] }),
      record({ version: "r5", date: "2026-05-01", boundary: [30, "above", 50] }),
    ]);
    expect(said(trend)).toEqual([
      ["r2", "boundary falls at least 50 % at D 1"],
      ["r3", "boundary vanishes, no P is stable any more, at D 1"],
      ["r4", "boundary is back at D 1"],
    ]);
  });

  it("is the program's where the craft is the same, and an edit's where the version is", () => {
    const trend = onlyTrend([
      record(),
      record({ date: "2026-02-01", product: "0.2.0", boundary: [30, 44, 50] }),
      record({ date: "2026-03-01", product: "0.2.0", craft: "edited", boundary: [30, 50, 50] }),
    ]);
    expect(said(trend).map(([cause]) => cause)).toEqual(["gainscape 0.2.0", "r1, edited"]);
  });

  it("between two seeds is none until what seeds do is known, and then larger than that", () => {
    const other = record({ date: "2026-02-01", seed: 2, boundary: [30, 40.8, 50] });
    const unknown = onlyTrend([
      record(),
      other,
      record({ version: "r2", date: "2026-03-01", seed: 3, boundary: [30, 60, 50] }),
    ]);
    expect(unknown.steps.map(({ stage }) => stage)).toEqual([2]); // one craft under two seeds: 2 % apart
    const [first] = trendsOf([
      record(),
      record({ version: "r2", date: "2026-03-01", seed: 3, boundary: [30, 60, 50] }),
    ]);
    expect(first?.steps).toEqual([]);
    expect(first?.unjudged).toEqual([1]);
  });

  it("says a start that is lost, and not four times what it lost", () => {
    const trend = onlyTrend([
      record(),
      record({ version: "r2", date: "2026-02-01", roll: { start: null, safeShare: 0 } }),
    ]);
    expect(said(trend)).toEqual([["r2", "safe ground falls 100 %", "no starting tune any more"]]);
    expect(trend.steps[0]?.moves.every(({ better }) => better === false || better === null)).toBe(true);
  });

  it("of a share needs the same lines", () => {
    const trend = onlyTrend([
      record(),
      record({ version: "r2", date: "2026-02-01", roll: { lines: "fedcba9876543210", safeShare: 0.4 } }),
    ]);
    expect(trend.steps).toEqual([]);
  });
});

describe("records", () => {
  const nights = [
    record({ date: "2026-01-01" }),
    record({ date: "2026-01-02" }),
    record({ date: "2026-01-01", version: "r2", boundary: [20, 30, 40] }),
    record({ date: "2026-01-02", version: "r2", boundary: [20, 30, 40] }),
    record({ date: "2026-01-03", version: "r2", product: "0.2.0", boundary: [22, 33, 40] }),
    record({ date: "2026-01-03", product: "0.2.0", boundary: [33, 44, 50] }),
    record({ date: "2026-01-04T02:00:00+01:00", version: "r3", product: "0.2.0", boundary: [22, 33, 40] }),
  ];

  it("of several versions a night do not step to and fro, and a version is held against what the one before was then", () => {
    const trend = onlyTrend(nights);
    expect(trend.stages.map(({ version, product, records, before }) => [version, product, records, before])).toEqual([
      ["r1", "0.1.0", 2, null],
      ["r1", "0.2.0", 1, 0],
      ["r2", "0.1.0", 2, 0],
      ["r2", "0.2.0", 1, 2],
      ["r3", "0.2.0", 1, 3],
    ]);
    expect(said(trend).map(([cause]) => cause)).toEqual(["gainscape 0.2.0", "r2", "gainscape 0.2.0"]);
  });

  it("give one trend in whatever order and however often they come", () => {
    const shuffled = [...nights.slice(4), ...nights.slice(0, 5)].reverse();
    expect(trendsOf(shuffled)).toEqual(trendsOf(nights));
  });

  it("of another question are a trend of their own, the larger first", () => {
    const trends = trendsOf([record({ question: "other", boundary: [1, 2, 3] }), ...nights]);
    expect(trends.map(({ records }) => records)).toEqual([7, 1]);
  });

  it("on lines of their own have a start in common, and no boundary", () => {
    const own = (d: readonly number[], version: string, p: number) =>
      record({ version, date: `2026-01-0${version.slice(1)}`, roll: { d, start: startWith({ p }) } });
    const trend = onlyTrend([own([0, 1, 2], "r1", 10), own([0.1, 1.1, 2.1], "r2", 8)]);
    expect(trend.axes.roll.map(({ measure }) => measure)).not.toContain("boundary");
    expect(said(trend)).toEqual([["r2", "start P falls 20 %"]]);
  });
});
