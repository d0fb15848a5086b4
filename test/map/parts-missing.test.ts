// A map whose model or plan lacks a key, as one of another version may: drawn, drawn without what the page simulates, or
// refused in one line. Never anything else.
import { beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { compareMaps } from "../../src/compare/compare.js";
import { pageKernels } from "../../src/flow/page-script.js";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { missingToSimulate } from "../../src/map/simulable.js";
import { simulatorOf } from "../../src/page/simulator.js";
import { pageData } from "../../src/page-data/data.js";
import { notSimulatedWords, renderPage, renderSummary, simulationData } from "../../src/report/index.js";
import { simulatedMap } from "../compare/maps.js";
import { redigested } from "../compare/remade.js";

let map = {} as StabilityMap;
beforeAll(async () => {
  map = await simulatedMap();
});

type Tree = Record<string | number, unknown>;
type Path = readonly (string | number)[];

/** Every key below, of the first and last item of a list. */
function keysOf(at: unknown, path: Path): Path[] {
  if (typeof at !== "object" || at === null) return [];
  const keys = Array.isArray(at) ? [...new Set([0, at.length - 1])].filter((key) => key >= 0) : Object.keys(at);
  return keys.flatMap((key) => {
    const below = keysOf((at as Tree)[key], [...path, key]);
    return Array.isArray(at) ? below : [[...path, key], ...below];
  });
}

function without(path: Path): StabilityMap {
  const copy = structuredClone(map) as unknown as Tree;
  const holder = path.slice(0, -1).reduce<Tree>((node, key) => node[key] as Tree, copy);
  delete holder[path.at(-1) as string];
  return redigested(copy) as unknown as StabilityMap;
}

const documentOf = (data: unknown) => ({ file: "map.json", data, place: () => ({ line: 0, column: 0 }) });

/** What became of it. */
function endOf(path: Path): "drawn" | "without" | "refused" {
  let read: StabilityMap;
  try {
    read = parseMap(documentOf(without(path)));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect([path.join("."), error.message.split("\n").length]).toEqual([path.join("."), 1]);
    return "refused";
  }
  pageData(read);
  pageKernels(read);
  expect(renderSummary(read)).not.toContain("undefined");
  for (const sides of [
    [map, read],
    [read, map],
  ] as const)
    compareMaps(...sides, { productVersion: "0", command: "" });
  baselineOf(read);
  const data = simulationData(read, () => ({ d: [0], p: [0] }));
  const words = notSimulatedWords(read);
  expect(data === null).toBe(words !== null);
  if (data === null) {
    expect(words).toMatch(
      /^Trials of this map cannot be simulated in the page, which needs \S+ as this version.*anew\.$/,
    );
    return "without";
  }
  const { plan, trialsFor } = simulatorOf(data);
  for (const variant of plan.variants) trialsFor(variant);
  return "drawn";
}

describe("a map that lacks one key of its model or plan", () => {
  it("is drawn, drawn without its simulation, or refused in one line, whichever key it is", () => {
    const paths = [...keysOf(map.model, ["model"]), ...keysOf(map.plan, ["plan"])];
    const ends = new Map(paths.map((path) => [path.join("."), endOf(path)]));
    expect(ends.size).toBeGreaterThan(150);
    const refused = [...ends].filter(([, end]) => end === "refused").map(([path]) => path);
    // What drawing and comparing are made of; all else may be missing.
    for (const path of refused) expect(path).toMatch(/^(model\.(name|version)|plan\.(digest|sweep|variants))/);
    for (const path of ["model.format", "model.controller.rate", "model.mass", "plan.format", "plan.holding"])
      expect([path, ends.get(path)]).toEqual([path, "without"]);
    for (const path of ["plan.conditions.0.craft.arms", "plan.variants.0.trim", "plan.sweep.scripts.0.script.noise"])
      expect([path, ends.get(path)]).toEqual([path, "without"]);
    expect(ends.get("plan.sweep.limits")).toBe("refused");
    expect(ends.get("plan.sweep.gates.safeShrink")).toBe("drawn");
  });

  it("says so on its page, where the trial would be", async () => {
    const script = "/* the page's */";
    const complete = await renderPage(parseMap(documentOf(structuredClone(map))), script);
    const bare = await renderPage(parseMap(documentOf(without(["plan", "holding"]))), script);
    expect(complete).toContain('id="trial"');
    expect(bare).not.toContain('id="trial"');
    expect(bare).not.toContain('href="#trial"');
    expect(bare).toContain("cannot be simulated in the page, which needs plan.holding as this version writes it");
    expect(complete).not.toContain("cannot be simulated in the page");
  });
});

describe("a map whose model or plan is of a format that this version does not know", () => {
  it.each(["model", "plan"] as const)("is drawn without its simulation: %s", (node) => {
    const later = { ...map, [node]: { ...(map[node] as object), format: `gainscape.resolved-${node}/9` } };
    expect(missingToSimulate(parseMap(documentOf(redigested(later))))).toBe(`${node}.format`);
  });
});
