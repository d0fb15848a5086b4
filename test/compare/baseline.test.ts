import { beforeAll, describe, expect, it } from "vitest";
import { canonicalJson, lineJson } from "../../src/base/canonical.js";
import { InputError } from "../../src/base/problem.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { parseBaseline } from "../../src/compare/parse-baseline.js";
import type { StabilityMap } from "../../src/map/format.js";
import { driftOf, simulatedMap, slower } from "./maps.js";
import { put } from "./spoil.js";

let [base, candidate] = [{} as StabilityMap, {} as StabilityMap];
beforeAll(async () => {
  [base, candidate] = [await simulatedMap(), await simulatedMap(slower)];
});

const documentOf = (text: string) => ({
  file: "b.json",
  data: JSON.parse(text),
  place: () => ({ line: 0, column: 0 }),
});
const baselineText = (map: StabilityMap): string => lineJson(baselineOf(map));

describe("a baseline", () => {
  it("is the map as far as drift is computed from it: every number of it to the last digit", () => {
    const [full, short] = [driftOf(base, candidate), driftOf(parseBaseline(documentOf(baselineText(base))), candidate)];
    // The room between grid lines is read from the rounded part.
    const without = (drift: typeof full) => canonicalJson(drift).replace(/"roomInOther":[^,}]+/g, "");
    expect(without(short)).toBe(without(full));
    for (const axis of ["roll", "pitch"] as const)
      expect(short.axes[axis].start.after?.roomInOther).toBeCloseTo(full.axes[axis].start.after?.roomInOther ?? 9, 2);
  });

  it("has zero drift against its own map", () => {
    const drift = driftOf(parseBaseline(documentOf(baselineText(base))), base);
    for (const { shift, safe, verdicts } of Object.values(drift.axes)) {
      expect(shift.perD.filter(({ percent }) => percent !== null && percent !== 0)).toEqual([]);
      expect([safe.lost, safe.gained, verdicts.worsened, verdicts.improved]).toEqual([0, 0, 0, 0]);
    }
    expect(drift.outcome).toBe("pass");
  });

  it("is short, and one changed point is one changed line of its verdicts", () => {
    expect(baselineText(base).length).toBeLessThan(0.7 * JSON.stringify(base).length);
    const verdict = base.axes.roll.verdict.map((row, i) => row.map((one, j) => (i === 2 && j === 3 ? "hot" : one)));
    const safe = base.axes.roll.safe.map((row, i) => row.map((one, j) => (i === 2 && j === 3 ? false : one)));
    const roll = { ...base.axes.roll, verdict, safe } as StabilityMap["axes"]["roll"];
    const [before, after] = [
      baselineText(base).split("\n"),
      baselineText({ ...base, axes: { ...base.axes, roll } }).split("\n"),
    ];
    expect(after.filter((line, at) => line !== before[at])).toHaveLength(1);
  });

  it("draws the map as it is drawn: P up, D across", () => {
    const { verdicts } = baselineOf(base).axes.roll;
    expect(verdicts).toHaveLength(base.axes.roll.grid.p.length);
    expect(verdicts[0]).toHaveLength(base.axes.roll.grid.d.length);
    const top = base.axes.roll.verdict[0]?.at(-1) as string;
    expect(verdicts[0]?.[0]?.toLowerCase()).toBe(top[0]);
  });

  it.each([
    ["an unknown letter", put("axes.roll.verdicts.0", "sszss"), /verdicts\[0\]: letters other than/],
    ["a row cut short", put("axes.roll.measures.overshoot.1", [1]), /measures\.overshoot: expected 5 rows of 12/],
    ["no pitch", put("axes.pitch", undefined), /axes\.pitch: missing/],
    ["a grid that does not rise", put("axes.pitch.grid.p.1", 3), /axes\.pitch\.grid\.p: does not rise/],
    ["a text for a boundary", put("axes.roll.sustained.0.p", "40"), /sustained\[0\]\.p: expected a number/],
    ["an interval of three", put("axes.roll.byVariant.0.0.0", [1, 2, 3]), /two ends/],
    ["another format", put("format", "gainscape.map/2"), /format/],
  ])("with %s is refused with the place", (_, spoil, message) => {
    const data = JSON.parse(baselineText(base));
    spoil(data);
    const read = () => parseBaseline(documentOf(JSON.stringify(data)));
    expect(read).toThrow(InputError);
    expect(read).toThrow(message);
  });
});
