// A map with draws read back: what it says of them must fit its grid and its spreads.
import { beforeAll, describe, expect, it } from "vitest";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { put } from "../compare/spoil.js";
import { drawnMap } from "../fixtures/drawn-map.js";

let map = {} as StabilityMap;
beforeAll(async () => {
  map = await drawnMap();
});

const read = (data: unknown) => parseMap({ file: "map.json", data, place: () => ({ line: 0, column: 0 }) });

function spoilt(bend: (root: unknown) => void): unknown {
  const copy = structuredClone(map);
  bend(copy);
  return copy;
}

describe("the draws of a map read back", () => {
  it("are those that were written", () => {
    expect(map.uncertainty?.pointDraws).toBe(24);
    expect(map.uncertainty?.draws).toHaveLength(64);
    expect(read(structuredClone(map))).toEqual(map);
  });

  it("may be there without counts, as a baseline has them", () => {
    const bare = spoilt((root) => {
      for (const axis of ["roll", "pitch"]) put(`axes.${axis}.confidence`, undefined)(root);
      for (let k = 0; k < 64; k++) put(`uncertainty.draws.${k}.values`, [])(root);
    });
    expect(read(bare).uncertainty?.draws).toHaveLength(64);
  });

  it("may be missing with everything that is said of them", () => {
    const { uncertainty: _, axes, ...rest } = structuredClone(map);
    const bare = ({ confidence: __, ...axis }: StabilityMap["axes"]["roll"]) => axis;
    const uncertaintyReason = "the model does not say how far its numbers may be off";
    const told = { ...rest, uncertaintyReason, axes: { roll: bare(axes.roll), pitch: bare(axes.pitch) } };
    expect(read(told).uncertaintyReason).toBe(uncertaintyReason);
  });

  it.each([
    ["counts without draws", put("uncertainty", undefined), /uncertainty: missing, roll has a confidence/],
    ["a row of counts too few", put("axes.roll.confidence.safeDraws.6", []), /safeDraws: expected 7 rows of 9/],
    ["half a count", put("axes.roll.confidence.safeDraws.0.0", 1.5), /safeDraws\[0\]\[0\]: expected a whole number/],
    [
      "a band at another D",
      put("axes.pitch.confidence.band.2.d", 7),
      /axes\.pitch\.confidence\.band: expected 7 points/,
    ],
    [
      "a boundary too short",
      put("uncertainty.draws.3.pitch.boundary", [1]),
      /draws\[3\]\.pitch\.boundary: expected 7 places, one per D/,
    ],
    [
      "a value too few",
      put("uncertainty.draws.5.values", [1]),
      /draws\[5\]\.values: expected 31 values, one per spread/,
    ],
    ["a share above one", put("uncertainty.confidence", 95), /uncertainty\.confidence: 95 i/],
  ])("must not hold %s", (_, bend, message) => {
    expect(() => read(spoilt(bend))).toThrow(message);
  });
});
