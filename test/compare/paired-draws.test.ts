// Drifts in pairs of draws, from draws whose drift is known beforehand.
import { beforeAll, describe, expect, it } from "vitest";
import { lineJson } from "../../src/base/canonical.js";
import { InputError } from "../../src/base/problem.js";
import { baselineOf } from "../../src/compare/baseline.js";
import type { Drift } from "../../src/compare/format.js";
import { parseBaseline } from "../../src/compare/parse-baseline.js";
import type { StabilityMap } from "../../src/map/format.js";
import { renderDriftMarkdown, renderDriftTable } from "../../src/report/index.js";
import { driftOf, simulatedMap, slower, withAxis } from "./maps.js";
import { type ByHand, DRAWS, KV, SHARED, withDraws } from "./paired-maps.js";
import { put } from "./spoil.js";

let [base, candidate] = [{} as StabilityMap, {} as StabilityMap];
beforeAll(async () => {
  [base, candidate] = [await simulatedMap(), await simulatedMap(slower)];
});

/** What the candidate's draws add to the shared factor: 1 up to 5 % more or less, in no order. */
const OWN = SHARED.map((_, k) => 0.95 + (0.1 * ((k * 37) % DRAWS)) / (DRAWS - 1));

function driftWith(before: ByHand, after: ByHand): Drift {
  return driftOf(withDraws(base, before), withDraws(candidate, after));
}

const movedOf = ({ axes }: Drift) => axes.roll.shift.perD.filter(({ state }) => state === "moved");
const judgedLower = (map: StabilityMap, boundaryFall = 5): StabilityMap => {
  const { sweep, ...plan } = map.plan as { sweep: { gates: object } };
  return {
    ...map,
    plan: { ...plan, sweep: { ...sweep, gates: { ...sweep.gates, boundaryFall }, gateJudge: "lower" } },
  };
};
const fallGate = ({ gates }: Drift) => gates.find(({ gate, axis }) => gate === "boundaryFall" && axis === "roll");

describe("the drift of a boundary in pairs of draws", () => {
  it("has no width where both sides of each pair moved alike, however far the draws lie apart", () => {
    const moved = movedOf(driftWith({ factors: SHARED }, { factors: SHARED }));
    expect(moved.length).toBeGreaterThan(0);
    for (const { percent, interval } of moved) {
      expect(interval?.low).toBeCloseTo(percent ?? 0, 2);
      expect(interval?.high).toBeCloseTo(percent ?? 0, 2);
    }
  });

  it("is as wide as what differs between the sides: the third of 64 from either end", () => {
    const after = SHARED.map((shared, k) => shared * (OWN[k] as number));
    const own = [...OWN].sort((a, b) => a - b);
    for (const { percent, interval } of movedOf(driftWith({ factors: SHARED }, { factors: after }))) {
      const expected = (factor: number | undefined) => (100 + (percent ?? 0)) * (factor ?? 0) - 100;
      expect(interval?.low).toBeCloseTo(expected(own[2]), 1);
      expect(interval?.high).toBeCloseTo(expected(own[61]), 1);
      expect(interval?.middle).toBeCloseTo(expected(1), 1);
    }
  });

  it("is unknown where draws have no boundary on a side, and where the numbers of draws differ", () => {
    const few = SHARED.map((factor, k) => (k < 2 ? null : factor));
    const many = SHARED.map((factor, k) => (k < 3 ? null : factor));
    expect(movedOf(driftWith({ factors: few }, { factors: SHARED })).every(({ interval }) => interval)).toBe(true);
    for (const { interval } of movedOf(driftWith({ factors: SHARED }, { factors: many })))
      expect(interval).toBe(undefined);
    const fewer = driftWith({ factors: SHARED }, { factors: SHARED.slice(1) });
    expect(fewer.axes.roll.paired).toBe(undefined);
    expect(fewer.notes).toContain("No drift has an interval: 64 draws before, 63 now.");
  });

  it("names what was drawn on each side for itself", () => {
    const changed = { ...KV, nominal: 210 };
    const drift = driftWith({ factors: SHARED }, { factors: SHARED, spreads: [changed] });
    expect(drift.notes.at(-1)).toMatch(
      /64 pairs of draws\. Drawn on each side for itself, since it differs: motor\.kv\./,
    );
  });

  it("names what was drawn partly apart, since others that it goes with differ", () => {
    const ohms = { key: "motor.resistance", nominal: 0.075, law: "normal", size: 0.01 } as const;
    const ct = { key: "propeller.ct", nominal: 0.16, law: "normal", size: 0.01 } as const;
    const spreads = [KV, ohms, ct];
    const joint = (map: StabilityMap, correlation: number): StabilityMap => ({
      ...map,
      model: { ...(map.model as object), correlations: [{ one: ct.key, other: ohms.key, correlation }] },
    });
    const note = (before: StabilityMap, after: StabilityMap) => driftOf(before, after).notes.at(-1);
    const sides = (of: typeof spreads) =>
      [withDraws(base, { factors: SHARED, spreads }), withDraws(candidate, { factors: SHARED, spreads: of })] as const;
    const [before, after] = sides(spreads);
    expect(note(joint(before, 0.5), joint(after, 0.5))).toMatch(/since it differs: none\.$/);
    expect(note(joint(before, 0.5), joint(after, 0.6))).toMatch(
      /differs: none\. Drawn partly apart, .*: motor\.resistance, propeller\.ct\.$/,
    );
    const [same, changed] = sides([KV, { ...ohms, size: 0.02 }, ct] as never);
    expect(note(joint(same, 0.5), joint(changed, 0.5))).toMatch(
      /differs: motor\.resistance\. Drawn partly apart, .*: propeller\.ct\.$/,
    );
  });

  it("stands beside the shift in terminal and summary", () => {
    const after = SHARED.map((shared, k) => shared * (OWN[k] as number));
    const drift = driftWith({ factors: SHARED }, { factors: after });
    const interval = /falls [\d.]+\u00a0% \([\d.]+ to [\d.]+\u00a0%\) at D/;
    expect(renderDriftTable(drift)).toMatch(interval);
    expect(renderDriftTable(drift)).toMatch(
      /boundary \u2212[\d.]+\u00a0% \(\u2212[\d.]+ to \u2212[\d.]+\u00a0%\) at D/,
    );
    expect(renderDriftMarkdown(drift)).toMatch(/\u2212[\d.]+\u00a0% \(\u2212[\d.]+ to \u2212[\d.]+\u00a0%\) at D/);
  });
});

describe("the start in the same draws", () => {
  it.each([
    ["lost", [], [1, 5, 9, 20, 33, 34, 60], { before: 64, after: 57, lost: 7, gained: 0, chance: 0.015625 }],
    ["gained and lost", [1, 2], [2, 3], { before: 62, after: 62, lost: 1, gained: 1, chance: 1 }],
    ["the same", [4], [4], { before: 63, after: 63, lost: 0, gained: 0, chance: 1 }],
  ])("%s", (_, before, after, expected) => {
    const drift = driftWith({ factors: SHARED, unsafe: before }, { factors: SHARED, unsafe: after });
    expect(drift.axes.roll.paired).toEqual({ draws: 64, start: { of: 64, ...expected } });
  });

  it("is said with what chance gives", () => {
    const table = (before: number[], after: number[]) =>
      renderDriftTable(driftWith({ factors: SHARED, unsafe: before }, { factors: SHARED, unsafe: after }));
    expect(table([], [1, 5, 9, 20, 33, 34, 60])).toMatch(
      "each side's start safe in 64 of 64 draws, now in 57 (of the same draws lost in 7, gained in 0: more than chance gives in 5 of 100)",
    );
    expect(table([], [1, 2])).toMatch("now in 62 (of the same draws lost in 2, gained in 0: no difference seen");
    expect(table([3], [3])).toMatch("safe in 63 of 64 draws, now in 63, the same ones");
  });

  it("is left out where a side has no start", () => {
    const without = withAxis(withDraws(candidate, { factors: SHARED }), "roll", { start: null });
    const drift = driftOf(withDraws(base, { factors: SHARED }), without);
    expect(drift.axes.roll.paired).toEqual({ draws: 64, start: null });
    expect(drift.axes.pitch.paired?.start).not.toBe(null);
  });
});

describe("judge: lower", () => {
  const after = { factors: SHARED.map((shared, k) => shared * (OWN[k] as number)) };

  it("judges the end with the larger fall, where the middle passes", () => {
    const sides = [withDraws(base, { factors: SHARED }), withDraws(candidate, after)] as const;
    const middle = fallGate(driftOf(...sides))?.value ?? Number.NaN;
    const lower = fallGate(driftOf(sides[0], judgedLower(sides[1], middle + 1)));
    expect(lower).toMatchObject({ judge: "lower", outcome: "fail", threshold: middle + 1 });
    expect(lower?.value).toBeGreaterThan(middle + 3);
    expect(fallGate(driftOf(sides[0], judgedLower(sides[1], middle + 6)))?.outcome).toBe("pass");
  });

  it("without draws on both sides fails what the middle fails, and is otherwise skipped with the reason", () => {
    const drawn = withDraws(base, { factors: SHARED });
    expect(fallGate(driftOf(drawn, judgedLower(candidate, 0)))?.outcome).toBe("fail");
    const skipped = driftOf(drawn, judgedLower(candidate, 99));
    expect(fallGate(skipped)).toMatchObject({ outcome: "skipped", skipReason: "no draws on both sides" });
    expect(renderDriftTable(skipped)).toMatch(
      /no draws on both sides +a fall up to 99\u00a0%, in 95 of 100 draws +skipped/,
    );
    expect(skipped.notes).toContain("No drift has an interval: the candidate holds no draws.");
    expect(fallGate(driftOf(base, candidate))).not.toHaveProperty("judge");
  });
});

describe("a baseline with draws", () => {
  const documentOf = (data: unknown) => ({ file: "b.json", data, place: () => ({ line: 0, column: 0 }) });
  const readBack = (map: StabilityMap) => parseBaseline(documentOf(JSON.parse(lineJson(baselineOf(map)))));
  const unsafe = [3, 8];

  it("gives the same intervals and the same start as the map it was made of", () => {
    const [before, after] = [
      withDraws(base, { factors: SHARED, unsafe }),
      withDraws(candidate, { factors: OWN, unsafe: [8] }),
    ];
    const [full, short] = [driftOf(before, after), driftOf(readBack(before), after)];
    expect(movedOf(short)).toEqual(movedOf(full));
    expect(short.axes.roll.paired).toEqual(full.axes.roll.paired);
    expect(short.axes.roll.paired?.start).toMatchObject({ lost: 0, gained: 1 });
    expect(short.notes).toEqual(full.notes);
  });

  it("of a map without, and one written before there were any, has no interval and is read", () => {
    const drift = driftOf(readBack(base), withDraws(candidate, { factors: SHARED }));
    expect(drift.axes.roll.paired).toBe(undefined);
    expect(movedOf(drift).every(({ interval }) => interval === undefined)).toBe(true);
    expect(baselineOf(base)).not.toHaveProperty("uncertainty");
  });

  it.each([
    ["a draw missing at a D", put("uncertainty.roll.boundary.1", [3]), /uncertainty\.roll: expected 64 draws/],
    ["a D missing", put("uncertainty.pitch.boundary", []), /pitch\.boundary: expected 5 places/],
    ["a text for P", put("uncertainty.roll.boundary.0.0", "4"), /boundary\[0\]\[0\]: expected a number, found/],
    ["P below 0", put("uncertainty.roll.boundary.0.0", -4), /boundary\[0\]\[0\]/],
  ])("and %s is refused with the place", (_, spoil, message) => {
    const data = JSON.parse(lineJson(baselineOf(withDraws(base, { factors: SHARED }))));
    spoil(data);
    expect(() => parseBaseline(documentOf(data))).toThrow(InputError);
    expect(() => parseBaseline(documentOf(data))).toThrow(message);
  });
});
