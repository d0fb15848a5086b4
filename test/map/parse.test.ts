import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { sweepDigest } from "../../src/plan/plan.js";
import { simulatedMap } from "../compare/maps.js";
import { put } from "../compare/spoil.js";

let map = {} as StabilityMap;
beforeAll(async () => {
  map = await simulatedMap();
});

const read = (data: unknown) => parseMap({ file: "map.json", data, place: () => ({ line: 0, column: 0 }) });

function spoilt(bend: (root: unknown) => void): unknown {
  const copy = structuredClone(map);
  bend(copy);
  return copy;
}

describe("map.json read back", () => {
  it("is the map that was written", () => {
    expect(read(structuredClone(map))).toEqual(map);
  });

  it("accepts unknown keys, for a later version may add some", () => {
    expect(read(spoilt(put("axes.roll.later", [1, 2])))).toMatchObject({ axes: { roll: { later: [1, 2] } } });
  });

  it("has two axes, whatever other keys there are", () => {
    const steps = [{ stage: "p", condition: "full", axes: { yaw: 1 } }];
    const bent = read(
      spoilt((root) => [put("axes.yaw", 1), put("ladder", { manoeuvres: [], steps })].map((bend) => bend(root))),
    );
    expect(Object.keys(bent.axes).sort()).toEqual(["pitch", "roll"]);
    expect(bent.ladder?.steps[0]?.axes).toEqual({});
  });

  it("needs no pinned tune where the sweep pins none", () => {
    const bare = spoilt((root) => {
      for (const path of ["axes.roll.pinned", "axes.pitch.pinned"]) put(path, undefined)(root);
      put("plan.sweep.pinned", null)(root);
      put("sweep.digest", sweepDigest((root as { plan: { sweep: object } }).plan.sweep))(root);
    });
    expect(read(bare).axes.roll.pinned).toBe(undefined);
    expect(() => read(spoilt(put("axes.roll.pinned", undefined)))).toThrow(/axes\.roll\.pinned: missing/);
  });

  it("needs no theory", () => {
    expect(read(spoilt(put("axes.roll.boundary.theory", undefined))).axes.roll.boundary.theory).toBe(undefined);
  });

  it.each([
    ["axes.roll.grid.p", put("axes.roll.grid.p", undefined), /map\.json axes\.roll\.grid\.p: missing/],
    ["a text in the grid", put("axes.roll.grid.d.1", "0.5"), /grid\.d\[1\]: expected a number, found "0\.5"/],
    ["one grid line", put("axes.pitch.grid.d", [0]), /axes\.pitch\.grid\.d: 1 grid lines, expected at least 2/],
    ["a grid that does not rise", put("axes.pitch.grid.p.3", 1), /axes\.pitch\.grid\.p: does not rise/],
    ["an unknown verdict", put("axes.roll.verdict.0.0", "fine"), /verdict\[0\]\[0\]: expected one of sustained, hot/],
    ["a table with a row too few", put("axes.pitch.safe", []), /axes\.pitch\.safe: expected 5 rows of 12/],
    [
      "a row with a point too few",
      put("axes.roll.margins.phase.2", [1]),
      /roll\.margins\.phase: expected 5 rows of 12/,
    ],
    ["no measure", put("axes.roll.measures.overshoot", undefined), /measures\.overshoot: missing/],
    ["a decider beyond the variants", put("axes.roll.decidedBy.0.0", 99), /decidedBy: 99 names no variant/],
    ["a decider between two", put("axes.roll.decidedBy.0.0", 0.5), /decidedBy\[0\]\[0\]: expected a whole number/],
    ["fewer boundaries", put("axes.roll.boundary.byVariant", []), /byVariant: expected 4, one per variant of roll/],
    ["fewer variants", put("variants", []), /variants: 0 here, 8 in the plan/],
    ["a text for a boundary", put("axes.roll.boundary.sustained.1.p", "40"), /sustained\[1\]\.p: expected a number/],
    ["theory at fewer D", put("axes.roll.boundary.theory.loops.0.perD", []), /theory\.loops: expected 5 lines in each/],
    [
      "a text for a difference",
      put("axes.pitch.boundary.theory.agreement.median", "0"),
      /agreement\.median: expected a number/,
    ],
    ["no plan", put("plan", null), /plan: expected a group of keys, found an empty value/],
    ["a list for a map", put("axes", []), /axes: expected a group of keys, found a list/],
  ])("without or with %s is refused with the place", (_, bend, message) => {
    expect(() => read(spoilt(bend))).toThrow(InputError);
    expect(() => read(spoilt(bend))).toThrow(message);
  });

  it("reports every problem at once", () => {
    const data = spoilt(put("units.p", 1));
    put("axes.roll.safeShare", null)(data);
    put("provenance.seed", "x")(data);
    expect(() => read(data)).toThrow(/safeShare[\s\S]*seed|seed[\s\S]*safeShare/);
  });
});

describe("whatever stands in a map's place", () => {
  const anything = fc.anything({ withNullPrototype: true, maxDepth: 4 });
  const nothingButInputErrors = (data: unknown) => {
    try {
      read(data);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
    }
  };

  it("gives a map or an InputError, never another fault", () => {
    fc.assert(fc.property(anything, nothingButInputErrors), { seed: 4, numRuns: 300 });
  });

  it("also where one part of a good map is anything", () => {
    const places = [
      "axes.roll.grid",
      "axes.pitch.grid.p",
      "axes.roll",
      "axes.pitch.boundary.byVariant",
      "axes.roll.start",
      "plan.sweep",
      "variants",
    ];
    fc.assert(
      fc.property(fc.constantFrom(...places), anything, (place, value) =>
        nothingButInputErrors(spoilt(put(place, value ?? null))),
      ),
      { seed: 4, numRuns: 150 },
    );
  });
});
