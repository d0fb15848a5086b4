// The gates on yaw's P and on I: either side of what each allows, what cannot be judged, and every form that says so.
import { beforeAll, describe, expect, it } from "vitest";
import { DEFAULT_GATES, STRIP_GATES, type StripGateId } from "../../src/base/gates.js";
import type { GateResult, SkipReason, StripDrift, StripSide } from "../../src/compare/format.js";
import { judgeStrip, outcomeOf } from "../../src/compare/judge.js";
import { stripCases } from "../../src/compare/strip-drift.js";
import type { StabilityMap } from "../../src/map/format.js";
import type { Strip, YawStrip } from "../../src/map/strip-format.js";
import {
  renderComparison,
  renderDriftMarkdown,
  renderDriftTable,
  renderJunit,
  renderSarif,
} from "../../src/report/index.js";
import { stripsMap } from "../fixtures/strips-map.js";
import { driftOf } from "./maps.js";

const passing: StripSide = { declared: 30, choice: 30, range: { from: 10, to: 60 } };
const fallen = (toPercent: number | null): StripDrift => ({
  ...{ gain: "Yaw P", unit: "%/(100 deg/s)", oneUnit: null, before: passing, after: passing },
  ...{ choicePercent: 0, fromPercent: 0, toPercent },
});
const moved = (after: StripSide, before = passing): StripDrift => ({ ...fallen(0), before, after });

function judged(id: StripGateId, drift: StripDrift): GateResult {
  const found = judgeStrip({ axis: "yaw", drift }, DEFAULT_GATES).find(({ gate }) => gate === id);
  if (found === undefined) throw new Error(`no result for ${id}`);
  return found;
}

const replaced: StripSide = { declared: 30, choice: 20, range: { from: 10, to: 25 } };
const nothing: StripSide = { declared: 30, choice: null, range: null };
const edge = (from: number, to: number): StripSide => ({ declared: 30, choice: 30, range: { from, to } });

const SIDES: readonly (readonly [StripGateId, string, StripDrift, GateResult["outcome"], number])[] = [
  ["stripOwnPasses", "the model's own gain as before", moved(passing), "pass", 0],
  ["stripOwnPasses", "the model's own gain, now replaced", moved(replaced), "fail", 1],
  ["stripOwnPasses", "another gain in the new model, which fails", moved({ ...replaced, declared: 40 }), "fail", 1],
  ["stripChoicePasses", "a gain at the range's lower end", moved(edge(30, 60)), "pass", 0],
  ["stripChoicePasses", "a gain just below it", moved(edge(30 + 1e-9, 60)), "fail", 1],
  ["stripChoicePasses", "a gain at the range's upper end", moved(edge(10, 30)), "pass", 0],
  ["stripChoicePasses", "a gain just above it", moved(edge(10, 30 - 1e-9)), "fail", 1],
  ["stripChoicePasses", "a gain of which none passes now", moved(nothing), "fail", 1],
  ["stripChoicePasses", "what replaced the model's own, before and now", moved(replaced, replaced), "pass", 0],
  ["stripRangeFall", "a fall of exactly what is allowed", fallen(-15), "pass", 15],
  ["stripRangeFall", "a fall just beyond it", fallen(-15.01), "fail", 15.01],
  ["stripRangeFall", "a rise", fallen(40), "pass", -40],
  ["stripRangeFall", "a range that is gone", moved(nothing), "fail", 100],
];

describe.each(SIDES)("%s: %s", (id, _, drift, outcome, value) => {
  it(`is a ${outcome}`, () => {
    const result = judged(id, drift);
    expect(result).toMatchObject({ axis: "yaw", outcome, value, threshold: DEFAULT_GATES[id], skipReason: null });
    expect(outcomeOf([result])).toBe(outcome === "fail" ? "regression" : "pass");
  });
});

const SKIPPED: readonly (readonly [StripGateId, SkipReason, StripDrift])[] = [
  ["stripOwnPasses", "model's own gain failed before", moved(passing, replaced)],
  ["stripChoicePasses", "no gain passed before", moved(passing, nothing)],
  ["stripRangeFall", "no gain passed before", moved(passing, nothing)],
  ["stripRangeFall", "passes to the strip's end", fallen(null)],
];

describe.each(SKIPPED)("%s with %s", (id, reason, drift) => {
  it("is skipped with that reason", () => {
    expect(judged(id, drift)).toMatchObject({ outcome: "skipped", value: null, skipReason: reason });
  });
});

let map: StabilityMap;
let yaw: YawStrip;
beforeAll(async () => {
  ({ map } = await stripsMap());
  yaw = map.strips?.yaw as YawStrip;
}, 60_000);

const withYaw = (change: Partial<YawStrip>): StabilityMap => ({
  ...map,
  strips: { ...map.strips, yaw: { ...yaw, ...change } },
});
const ofStrips = (base: StabilityMap, candidate: StabilityMap): readonly GateResult[] =>
  driftOf(base, candidate).gates.filter(({ gate }) => STRIP_GATES.some(({ id }) => id === gate));

describe("an end of the range beyond the strip", () => {
  /** The yaw strips of both sides reach so far; null above: to the strip's end, where the gain still passes. */
  const toPercent = (before: number, openBefore: boolean, after: number, openAfter: boolean): number | null => {
    const reaching = (to: number, open: boolean): StabilityMap => {
      const range = { ...(yaw.range as NonNullable<Strip["range"]>), to };
      return withYaw({ range: { ...range, above: open ? null : { limit: "gain margin", decidedBy: null } } });
    };
    const [first] = stripCases(reaching(before, openBefore), reaching(after, openAfter));
    return first !== undefined && "drift" in first ? first.drift.toPercent : Number.NaN;
  };

  it("moved by at least what is seen, or by what nobody can say", () => {
    expect(toPercent(50, false, 40, false)).toBe(-20);
    expect(toPercent(50, true, 40, false)).toBe(-20); // it lay at 50 or higher
    expect(toPercent(50, true, 60, false)).toBeNull();
    expect(toPercent(50, false, 60, true)).toBe(20); // it lies at 60 or higher
    expect(toPercent(50, false, 40, true)).toBeNull(); // this strip is shorter
    expect(toPercent(50, true, 40, true)).toBeNull();
  });
});

describe("maps with and without strips", () => {
  it("are judged on every gain that both judged", () => {
    const results = ofStrips(map, map);
    expect(results.map(({ axis }) => axis)).toEqual([
      "yaw",
      "yaw",
      "yaw",
      "roll",
      "roll",
      "roll",
      "pitch",
      "pitch",
      "pitch",
    ]);
    expect(results.filter(({ outcome }) => outcome === "fail")).toEqual([]);
    expect(results.filter(({ outcome }) => outcome === "pass").length).toBeGreaterThan(5);
  });

  it("have no such gate where neither asks for strips, and skip it with a reason where one does", () => {
    const { strips: _, ...bare } = map;
    expect(ofStrips(bare, bare)).toEqual([]);
    for (const [base, candidate, reason] of [
      [bare, map, "no strip before"],
      [map, bare, "no strip now"],
      [map, withYaw({ limits: { ...yaw.limits, rise: 100 } }), "strips of other limits or scripts"],
    ] as const) {
      const ofYaw = ofStrips(base, candidate).filter(({ axis }) => axis === "yaw");
      expect(ofYaw.map(({ outcome, skipReason }) => [outcome, skipReason])).toEqual(
        STRIP_GATES.map(() => ["skipped", reason]),
      );
      expect(driftOf(base, candidate).outcome).toBe("pass");
    }
  });
});

describe("a regression of yaw alone", () => {
  const worse = () => {
    const range = { ...(yaw.range as NonNullable<YawStrip["range"]>), to: 0.7 * (yaw.range?.to ?? 0) };
    return withYaw({ range, choice: 0.5 * (yaw.range?.to ?? 0) });
  };

  it("fails the comparison and says so in every form", async () => {
    const drift = driftOf(map, worse());
    expect(drift.outcome).toBe("regression");
    const table = renderDriftTable(drift).replaceAll("\u00a0", " ");
    expect(table).toMatch(/^Range of the gain holds +yaw P +upper end falls 30 % +a fall up to 15 % +FAILED$/m);
    expect(renderDriftMarkdown(drift).replaceAll("\u00a0", " ")).toContain(
      "| Range of the gain holds | yaw P | upper end falls 30 % | a fall up to 15 % | **FAILED** |",
    );
    expect(renderJunit([drift])).toContain('name="yaw P: Range of the gain holds"');
    const page = (await renderComparison({ drift, base: map, candidate: worse() })).replaceAll("\u00a0", " ");
    expect(page).toMatch(
      /data-axis="Yaw P"><b><span aria-hidden="true">✕<\/span> FAILED<\/b> <small>upper end falls 30 %/,
    );
    const sarif = renderSarif([{ drift, folder: "a", changed: null }], "0.1.0");
    expect(sarif).toContain('"ruleId":"stripRangeFall"');
    expect(sarif).toMatch(/"gate\/v1":"[^"]*\/yaw\/stripRangeFall"/);
  });

  it("passes where the candidate's sweep switches the gate off", () => {
    const candidate = worse();
    const { plan } = candidate as unknown as { plan: { sweep: { gates: object } } };
    const gates = { ...plan.sweep.gates, stripRangeFall: null, stripChoicePasses: null };
    const open = { ...candidate, plan: { ...plan, sweep: { ...plan.sweep, gates } } } as unknown as StabilityMap;
    expect(driftOf(map, open).outcome).toBe("pass");
  });
});
