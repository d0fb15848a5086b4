import { describe, expect, it } from "vitest";
import { type TrialRow, worstPoint } from "../../src/map/worst.js";
import { absence, NOT_SHOWN, tableOf } from "./tables.js";

/** One variant a row, numbered 10, 11, ... */
const worst = (rows: Parameters<typeof tableOf>[0]) => {
  const table = tableOf(rows);
  return worstPoint(rows.map((_, row): TrialRow => ({ variant: 10 + row, table, row })));
};

describe("worst case of a point", () => {
  it("is the largest where low is better, the smallest where high is", () => {
    const found = worst([
      { overshoot: 5, damping: 0.4, growth: -3 },
      { overshoot: 9, damping: 0.2, growth: -1 },
      { overshoot: 7, damping: 0.3, growth: -2 },
    ]);
    expect(found.overshoot).toEqual({ value: 9, absent: 0, variant: 11 });
    expect(found.damping).toEqual({ value: 0.2, absent: 0, variant: 11 });
    expect(found.growth).toEqual({ value: -1, absent: 0, variant: 11 });
  });

  it("a worst of zero is a value", () => {
    expect(worst([{ overshoot: 0 }, {}]).overshoot).toEqual({ value: 0, absent: 0, variant: 10 });
  });

  it("of equals, the first variant is named", () => {
    expect(worst([{ kick: 3 }, { kick: 3 }]).kick.variant).toBe(10);
  });

  it("reads every variant from its own table and row", () => {
    const [a, b] = [tableOf([{ kick: 1 }, { kick: 8 }]), tableOf([{ kick: 5 }, { kick: 2 }])];
    const entries = [
      { variant: 0, table: a, row: 0 },
      { variant: 1, table: b, row: 0 },
    ];
    expect(worstPoint(entries).kick).toEqual({ value: 5, absent: 0, variant: 1 });
  });
});

describe("absences", () => {
  it("a trial that failed at a measure is worse than any value", () => {
    const found = worst([{ settling: 9000 }, { settling: "never settles in the window" }, { settling: 9001 }]);
    expect(found.settling).toEqual({ value: null, absent: absence("never settles in the window"), variant: 11 });
  });

  it("a variant that does not show it is passed over", () => {
    expect(worst([{}, { settling: 40 }, {}]).settling).toEqual({ value: 40, absent: 0, variant: 11 });
  });

  it("any value is worse than nothing to measure", () => {
    expect(worst([{ damping: "no swing to measure" }, { damping: 0.7 }]).damping).toEqual({
      value: 0.7,
      absent: 0,
      variant: 11,
    });
  });

  it("nothing to measure is reported with its reason where no variant has a value", () => {
    const found = worst([{}, { damping: "no swing to measure" }, {}]);
    expect(found.damping).toEqual({ value: null, absent: absence("no swing to measure"), variant: 11 });
  });

  it("what no variant shows is absent, without a variant", () => {
    expect(worst([{}, {}]).heat).toEqual({ value: null, absent: absence(NOT_SHOWN), variant: -1 });
    expect(worstPoint([]).heat).toEqual({ value: null, absent: absence(NOT_SHOWN), variant: -1 });
  });
});

describe("measures that neither way is better", () => {
  it("are read from the trial that gave the measure they belong to", () => {
    const found = worst([
      { overshoot: 5, ringFrequency: 30 },
      { overshoot: 9, ringFrequency: 12 },
      { overshoot: 7, ringFrequency: 50 },
    ]);
    expect(found.ringFrequency).toEqual({ value: 12, absent: 0, variant: 11 });
  });

  it("the ring frequency of nudges, without a stop, is that of the one that swings most at the end", () => {
    const nudges = [
      { oscillation: 0.1, ringFrequency: 30 },
      { oscillation: 0.3, ringFrequency: 12 },
    ];
    expect(worst([...nudges, { oscillation: 9 }]).ringFrequency).toEqual({ value: 12, absent: 0, variant: 11 });
    expect(worst([...nudges, { oscillation: 9, overshoot: 1, ringFrequency: 7 }]).ringFrequency.value).toBe(7);
  });

  it("carry that trial's reason where it has none", () => {
    const found = worst([
      { overshoot: 5, ringFrequency: 30 },
      { overshoot: 9, ringFrequency: "too few swings to count" },
    ]);
    expect(found.ringFrequency).toEqual({ value: null, absent: absence("too few swings to count"), variant: 11 });
    expect(worst([{ ringFrequency: 30 }]).ringFrequency).toEqual({
      value: null,
      absent: absence(NOT_SHOWN),
      variant: -1,
    });
  });
});
