// The key must change with everything a trial's result depends on, and with nothing else.
import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { type Plan, planSweep } from "../../src/plan/plan.js";
import { gridTasks } from "../../src/run/chunks.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { taskKeys, trialInputs } from "../../src/run/trial-key.js";
import type { Script, Sweep } from "../../src/sweep/sweep.js";
import { TIRED } from "../fixtures/airframe.js";
import { tinyPlan } from "./tiny-plan.js";

const CODE = "c".repeat(64);
const plan = tinyPlan();
const keysOf = (of: Plan, code = CODE): string[] => gridTasks(of, 8).map(taskKeys(of, code));
const keys = keysOf(plan);

function replanned(craft: Partial<Airframe>, sweep: Partial<Sweep> = {}): Plan {
  const again = planSweep({ ...plan.airframe, ...craft }, { ...plan.sweep, ...sweep });
  if ("variants" in again) return again;
  throw new Error("no plan");
}

const withScript = (change: Partial<Script>): Partial<Sweep> => ({
  scripts: plan.sweep.scripts.map((use, at) => (at === 1 ? { ...use, script: { ...use.script, ...change } } : use)),
});

/** Which of the keys are still there. */
const same = (other: Plan): boolean[] => {
  const there = new Set(keysOf(other));
  return keys.map((key) => there.has(key));
};

describe("a key", () => {
  it("is one per task", () => {
    expect(new Set(keys).size).toBe(keys.length);
    for (const key of keys) expect(key).toMatch(/^[0-9a-f]{64}$/);
    expect(keysOf(tinyPlan())).toEqual(keys);
  });

  it("holds every value of the plan that a trial reads", () => {
    const index = 3; // disturbed air, noise
    const reads = new Map<string, unknown>();
    taskRunner(watched(structuredClone(plan), "", reads))(
      gridTasks(plan, 2).filter(({ variant }) => variant === index)[0],
    );
    const keyed = new Set(leaves(trialInputs(plan, index)).map((value) => JSON.stringify(value)));
    const labels = /\.(variant|condition|axis|hovering|index)$|\.length$/;
    // What is not there is keyed by its absence.
    const unkeyed = [...reads].filter(
      ([path, value]) => value !== undefined && !labels.test(path) && !keyed.has(JSON.stringify(value)),
    );
    expect(reads.size).toBeGreaterThan(100);
    expect(unkeyed).toEqual([]);
  });
});

describe("the key changes with", () => {
  const all = keys.map(() => false);
  it.each([
    ["the code", (): string[] => keysOf(plan, "d".repeat(64))],
    ["the seed", () => keysOf(tinyPlan(8))],
    ["the craft", () => keysOf(replanned({ mass: plan.airframe.mass + 1e-9 }))],
    ["the controller", () => keysOf(replanned({ controller: { ...plan.airframe.controller, latency: 0.00125 } }))],
    ["the condition", () => keysOf(replanned({}, { conditions: [{ ...TIRED, name: "full" }] }))],
    [
      "the condition's name, which seeds its noise",
      () => keysOf(replanned({}, { conditions: plan.sweep.conditions.map((one) => ({ ...one, name: "other" })) })),
    ],
    [
      "the commanded rate",
      () => keysOf(replanned({}, { scripts: plan.sweep.scripts.map((use) => ({ ...use, rates: [8] })) })),
    ],
  ])("%s", (_, other) => {
    const there = new Set(other());
    expect(keys.map((key) => there.has(key))).toEqual(all);
  });

  it("a script: of its own trials, and of no others", () => {
    const expected = gridTasks(plan, 8).map(({ variant }) => plan.variants[variant].script.name !== "wash");
    expect(new Set(expected).size).toBe(2);
    for (const change of [{ duration: 1.9 }, { name: "wake" }, { noise: false }, { tail: { from: 0.95, to: 1.8 } }])
      expect(same(replanned({}, withScript(change)))).toEqual(expected);
  });

  it("a single gain, by a single bit", () => {
    const [task] = gridTasks(plan, 8);
    const keyOf = taskKeys(plan, CODE);
    const next = (value: number) => value * (1 + Number.EPSILON);
    expect(keyOf({ ...task, p: task.p.map((gain, at) => (at === 3 ? next(gain) : gain)) })).not.toBe(keys[0]);
    expect(keyOf({ ...task, d: task.d.map((gain, at) => (at === 3 ? next(gain) : gain)) })).not.toBe(keys[0]);
  });
});

describe("the key does not change with", () => {
  const all = keys.map(() => true);
  it.each([
    ["titles", () => replanned({ title: "new" }, { title: "new", ...withScript({ title: "new" }) })],
    ["the craft's name and version", () => replanned({ name: "Other", version: "9", defaulted: ["a line"] })],
    ["what judges", () => replanned({}, { limits: { ...plan.sweep.limits, overshoot: 1 }, boundaryTolerance: 0.1 })],
    ["the place among the scripts", () => replanned({}, { scripts: [...plan.sweep.scripts].reverse() })],
    [
      "a further condition that the same gains hold",
      () => replanned({}, { conditions: [...plan.sweep.conditions, { ...TIRED, name: "nearly full", charge: 0.98 }] }),
    ],
  ])("%s", (_, other) => {
    expect(same(other())).toEqual(all);
  });
});

/** The value as it is, with every number, text and boolean that is read from it noted by its path. */
function watched<T extends object>(value: T, path: string, reads: Map<string, unknown>): T {
  return new Proxy(value, {
    get(target, key, receiver) {
      const found: unknown = Reflect.get(target, key, receiver);
      if (typeof key === "symbol" || typeof found === "function") return found;
      const place = `${path}.${key}`;
      if (typeof found === "object" && found !== null) return watched(found, place, reads);
      reads.set(place, found);
      return found;
    },
  });
}

const leaves = (value: unknown): unknown[] =>
  typeof value === "object" && value !== null ? Object.values(value).flatMap(leaves) : [value];
