// Model and plan of a map, damaged in every place: refused, or drawn and compared without a fault of ours. Edited
// maps get fresh digests, so that only the checks of the shapes protect the reader.
import { beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { compareMaps } from "../../src/compare/compare.js";
import { pageKernels } from "../../src/flow/page-script.js";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { WITHOUT_ASKING } from "../../src/page/cost.js";
import { simulatorOf } from "../../src/page/simulator.js";
import { pageData } from "../../src/page-data/data.js";
import { simulationData } from "../../src/page-data/simulation-data.js";
import { trialWork } from "../../src/run/work.js";
import { printableMap } from "../../src/words/printable.js";
import { redigested } from "../compare/remade.js";
import { put } from "../compare/spoil.js";
import { NIGHT } from "../hostile/cases.js";
import { tinyMap } from "../run/tiny-map.js";

let map = {} as StabilityMap;
beforeAll(async () => {
  map = await tinyMap();
});

const read = (data: unknown) => parseMap({ file: "map.json", data, place: () => ({ line: 0, column: 0 }) });

/** Only model, plan and what holds their digests are copies: the rest of the map is not touched. */
function bent(bend: (root: unknown) => void): StabilityMap {
  const { model, plan, airframe, sweep, ...rest } = map;
  const copy = structuredClone({ model, plan, airframe, sweep });
  bend(copy);
  return { ...rest, ...redigested(copy) };
}

/** Everything that reads model and plan, pages and their trials included. False where it was refused in order. */
function used(data: StabilityMap): boolean {
  let taken: StabilityMap;
  try {
    taken = read(data);
  } catch (error) {
    if (error instanceof InputError) return false;
    throw error;
  }
  compareMaps(map, taken, { productVersion: "0", command: "" });
  printableMap(taken);
  pageData(taken);
  pageKernels(taken);
  const simulation = simulationData(taken, () => ({ d: [0], p: [0] }));
  if (simulation === null) return true;
  const { plan, trialsFor } = simulatorOf(simulation);
  for (const variant of plan.variants) if (trialWork(plan, variant) <= WITHOUT_ASKING) trialsFor(variant);
  return true;
}

type Tree = Record<string | number, unknown>;

function places(at: unknown, path: string): string[] {
  if (typeof at !== "object" || at === null) return [path];
  // Of a long list the ends speak for the rest.
  const keys = Array.isArray(at) ? [...new Set([0, at.length - 1])].filter((key) => key >= 0) : Object.keys(at);
  return [path, ...keys.flatMap((key) => places((at as Tree)[key], `${path}.${key}`))];
}

describe("a model or a plan that was damaged", () => {
  it("in any one place is refused or does no harm", () => {
    const all = [...places(map.model, "model"), ...places(map.plan, "plan")];
    expect(all.length).toBeGreaterThan(150);
    let refused = 0;
    // By day each place meets four of the values and its neighbour the other four.
    const values = [undefined, null, "x", -1, 1e9, [], {}, [null, { a: [] }]];
    for (const [at, place] of all.entries())
      for (const value of values.filter((_, k) => NIGHT || (k + at) % 2 === 0))
        if (!used(bent(put(place, value)))) refused++;
    expect(refused).toBeGreaterThan((NIGHT ? 5 : 2.5) * all.length);
  });

  it.each([
    ["model.controller.rate", 1e9, /model\.controller\.rate: 1000000000 is out of range, expected 500 to 32000/],
    ["model.controller.substeps", 1e9, /model\.controller\.substeps: 1000000000 is out of range, expected 1 to 32/],
    ["model.controller.latency", 1e3, /model\.controller\.latency: 1000 is out of range/],
    ["model.rotors", new Array(5000).fill({ at: [0, 0, 0], spin: 1 }), /model\.rotors: 5000 items, expected at most 8/],
    [
      "model.sensing.vibration",
      new Array(9).fill({ harmonic: 1, atHover: 0 }),
      /vibration: 9 items, expected at most 8/,
    ],
    ["plan.sweep.scripts.0.script.duration", 1e6, /script\.duration: 1000000 is out of range, expected 0\.9 to 10/],
    ["plan.conditions.0.craft.arms", [[0, 0, 0]], /craft\.arms: 1 items, expected 4 to 8/],
    ["plan.conditions.0.craft.mass", 0, /craft\.mass: expected a number above 0/],
    ["plan.variants.0.trim.speeds", [1, 2, 3, 4, 5], /trim\.speeds: 5 items, the model has 4 rotors/],
    [
      "plan.sweep.scripts.0.script.throttle",
      [[0, { kind: "x" }]],
      /throttle\[0\]\[1\](\.kind)?: expected one of the values/,
    ],
  ])("%s as %s is reported by its key", (place, value, message) => {
    expect(() => read(bent(put(place, value)))).toThrow(InputError);
    expect(() => read(bent(put(place, value)))).toThrow(message);
  });

  it("is reported by its digest where nothing else is wrong", () => {
    const heavier = structuredClone(map);
    put("model.mass", 0.63)(heavier);
    expect(() => read(heavier)).toThrow(/airframe\.digest: is not that of model, which was changed/);
  });
});

describe("what opening a page costs", () => {
  const simulator = () =>
    simulatorOf(simulationData(map, () => ({ d: [0], p: [0] })) as NonNullable<ReturnType<typeof simulationData>>);

  it("is bounded: common trials are simulated at once, the slowest that a model may ask for are not", () => {
    const { plan } = simulator();
    for (const variant of plan.variants) expect(trialWork(plan, variant)).toBeLessThan(WITHOUT_ASKING / 10);
    const { airframe } = plan;
    const slowest = { ...airframe, controller: { ...airframe.controller, rate: 32_000, substeps: 16 } };
    for (const variant of plan.variants)
      expect(trialWork({ airframe: slowest }, variant)).toBeGreaterThan(WITHOUT_ASKING);
  });
});
