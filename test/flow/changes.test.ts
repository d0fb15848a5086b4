// The changes of a sweep: what changes nothing, what theory says a delay costs, what a model does not have.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { at } from "../../src/base/at.js";
import { P_UNIT } from "../../src/base/units.js";
import type { Effect } from "../../src/compare/effect-format.js";
import { type ChangedMaps, changeRequests } from "../../src/flow/changes.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import type { MapRequest } from "../../src/flow/run-map.js";
import type { StabilityMap } from "../../src/map/format.js";
import { findingWords } from "../../src/words/finding-words.js";
import { changesMap, changesRequest } from "../fixtures/changes-map.js";
import { complaintsOf } from "../fixtures/complaints.js";

const home = mkdtempSync(join(tmpdir(), "gainscape-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** The fixture's sweep with other changes, and with more keys. */
function requested(changes: string, rest = ""): MapRequest {
  const file = join(home, "changes.yaml");
  const [head = ""] = readFileSync("test/fixtures/changes.yaml", "utf8").split("changes:\n  -");
  writeFileSync(file, `${head.replaceAll("../..", resolve("."))}${rest}changes:\n${changes}`);
  const [sweep, model] = [readSweep(file), readAirframe("models/sandpiper-r1.yaml")];
  return { sweep, model, plan: planFor(model, sweep) };
}

let asItIs: StabilityMap;
let changed: ChangedMaps;
let request: MapRequest;
const effectOf = (name: string): Effect => changed.effects.effects.find((one) => one.name === name) as Effect;
const mapOf = (name: string) => changed.maps.find(({ effect }) => effect.name === name)?.map ?? null;

beforeAll(async () => {
  request = changesRequest();
  ({ asItIs, changed } = await changesMap());
});

describe("a change that changes nothing", () => {
  it("gives the same map, number by number, and no difference is seen", () => {
    const map = mapOf("latency as it is") as StabilityMap;
    for (const axis of ["roll", "pitch"] as const) {
      const { pinned: _, ...rest } = map.axes[axis];
      expect(rest).toEqual(asItIs.axes[axis]);
    }
    expect(findingWords(effectOf("latency as it is"))).toBe("Latency as it is: no difference seen.");
    expect(effectOf("latency as it is").found?.gain).toBe(0);
  });

  it("is not simulated where the model has nothing of it, and stands last", () => {
    expect(mapOf("gyro notch")).toBe(null);
    expect(effectOf("gyro notch").found).toBe(null);
    expect(changed.effects.effects.at(-1)?.name).toBe("gyro notch");
    expect(findingWords(effectOf("gyro notch"))).toBe("Gyro notch: not in this model.");
  });

  it("is not in the plan of the model as it is: the same digest with or without changes", () => {
    const { changes: _, ...value } = request.sweep.value;
    const { digests } = planFor(request.model, { ...request.sweep, value });
    expect(request.plan.digests).toEqual(digests);
  });
});

describe("a pure delay that is taken out", () => {
  it("is stated as long as it is", () => {
    const { delayMs } = effectOf("no latency").found as NonNullable<Effect["found"]>;
    for (const { asItIs: have, changed: without } of [delayMs.p, delayMs.d])
      expect(have - without).toBeCloseTo(0.75, 9);
  });

  it("raises the boundary at each D by what theory says, and is the largest gain", () => {
    const map = mapOf("no latency") as StabilityMap;
    let compared = 0;
    for (const axis of ["roll", "pitch"] as const) {
      const theory = (one: StabilityMap, row: number) => one.axes[axis].boundary.theory?.loops[0]?.perD[row]?.[0]?.[1];
      asItIs.axes[axis].boundary.sustained.forEach(({ p }, row) => {
        const after = at(map.axes[axis].boundary.sustained, row).p;
        const [from, to] = [theory(asItIs, row), theory(map, row)];
        if (p === null || after === null || from == null || to == null) return;
        compared++;
        expect(after / p / (to / from)).toBeGreaterThan(0.985);
        expect(after / p / (to / from)).toBeLessThan(1.015);
        expect(after).toBeGreaterThan(p);
      });
      expect(effectOf("no latency").found?.axes[axis].boundary).toMatchObject({ seen: true });
    }
    expect(compared).toBeGreaterThan(2);
    expect(changed.effects.effects[0]?.name).toBe("no latency");
    expect(findingWords(effectOf("no latency"))).toMatch(/^No latency: .*higher.*at no cost seen\.$/);
  });

  it("is judged at the start of the model as it is", () => {
    const map = mapOf("no latency") as StabilityMap;
    for (const axis of ["roll", "pitch"] as const) {
      const { start } = asItIs.axes[axis];
      const { pinned } = map.axes[axis];
      expect(start).not.toBe(null);
      expect((pinned?.p ?? 0) * P_UNIT).toBeCloseTo((start?.p ?? 1) * P_UNIT, 12);
      expect(effectOf("no latency").found?.axes[axis].tune).toMatchObject({ safe: { asItIs: true } });
    }
  });
});

describe("changes that cannot be", () => {
  it("are found at their line before anything is simulated", () => {
    const complaints = (changes: string) =>
      complaintsOf(() => changeRequests(requested(changes))).map((line) => line.replace(/^.*changes\.yaml/, "x"));
    expect(complaints("  - {with: more cells, set: [pack.cell=6]}\n")).toEqual([
      expect.stringMatching(/^x:\d+:\d+ changes\[0\]\.set: .*pack\.cell.*did you mean/),
    ]);
    expect(complaints("  - {without: the pack, set: [pack=]}\n")).toEqual([
      expect.stringMatching(/changes\[0\]\.set: pack: no model is without it/),
    ]);
  });

  it("leave draws out of every changed model", () => {
    const rest = "uncertainty: {draws: 16, confidence: 95 %}\n";
    const one = requested("  - {with: no latency, set: [controller.latency=0 ms]}\n", rest);
    expect(one.plan.sweep.uncertainty).toMatchObject({ draws: 16 });
    const [first] = changeRequests(one);
    expect(first?.request?.plan.sweep.uncertainty).toBe(undefined);
    expect(first?.request?.plan.sweep.grid).toEqual(one.plan.sweep.grid);
  });

  it.each([
    ["what-each-buys", "curlew-r2"],
    ["what-each-would-buy", "sandpiper-r1"],
    ["what-each-would-buy", "dunlin-r1"],
    ["what-each-would-buy", "turnstone-r1"],
  ])("stand in sweeps/%s.yaml as %s takes them: each takes something out or puts it in", (sweepName, modelName) => {
    const file = `sweeps/${sweepName}.yaml`;
    const sweep = readSweep(file);
    const model = readAirframe(`models/${modelName}.yaml`);
    // One pair of lines, one script: what is read is the changes.
    const scripts = sweep.value.scripts.slice(0, 1).map((use) => ({ ...use, throttle: ["hover" as const] }));
    const coarse = { ...sweep, value: { ...sweep.value, grid: request.plan.sweep.grid, scripts } };
    const plan = planFor(model, coarse);
    const all = changeRequests({ sweep: coarse, model, plan });
    expect(all.filter((one) => one.request === null)).toEqual([]);
    for (const { change, request: changed } of all)
      expect([change.name, changed?.plan.digests.airframe]).not.toEqual([change.name, plan.digests.airframe]);
    expect(readFileSync(file, "utf8")).not.toContain("uncertainty:");
  });
});
