// Whatever one key of a map's question says otherwise, the map contradicts itself or the two cannot be compared: by no
// such change do two maps that answer different questions pass as one.

import { beforeAll, describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { InputError } from "../../src/base/problem.js";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { compareMaps } from "../../src/compare/compare.js";
import { parseBaseline } from "../../src/compare/parse-baseline.js";
import type { StabilityMap } from "../../src/map/format.js";
import { parseMap } from "../../src/map/parse.js";
import { simulatedMap } from "../compare/maps.js";
import { redigested } from "../compare/remade.js";
import { nudge, stretchedX } from "../fixtures/airframe.js";
import { bothAxes } from "../fixtures/both-axes.js";

let [map, stored] = [{} as StabilityMap, {} as object];
beforeAll(async () => {
  const scripts = [{ script: nudge(3), throttle: [0.4, "hover"] as const, rates: [0] }];
  const grid = bothAxes({ p: [3, 15, 27, 39].map((p) => p * P_UNIT), d: [0, 1, 2].map((d) => d * D_UNIT) });
  map = await simulatedMap(stretchedX, { grid, scripts });
  stored = JSON.parse(canonicalJson(baselineOf(map)));
});

type Path = readonly (string | number)[];
type Tree = Record<string | number, unknown>;

const document = (data: unknown) => ({ file: "map.json", data, place: () => ({ line: 0, column: 0 }) });

/** Paths of all leaves below a path; empty lists and groups count. */
function leaves(root: unknown, path: Path = []): Path[] {
  const at = path.reduce<unknown>((node, key) => (node as Tree)[key], root);
  const keys = typeof at === "object" && at !== null ? Object.keys(at) : [];
  if (keys.length === 0) return [path];
  return keys.flatMap((key) => leaves(root, [...path, Array.isArray(at) ? Number(key) : key]));
}

function changed(value: unknown): unknown {
  if (typeof value === "number") return value === 0 ? 1 : 1.01 * value;
  if (typeof value === "string") return value === "roll" ? "pitch" : value === "pitch" ? "roll" : `${value}x`;
  return typeof value === "boolean" ? !value : 1;
}

function perturbed<T>(root: T, path: Path, act: (holder: Tree, key: string | number) => void): T {
  const copy = structuredClone(root);
  const holder = path.slice(0, -1).reduce<unknown>((node, key) => (node as Tree)[key], copy) as Tree;
  act(holder, path.at(-1) as string | number);
  return copy;
}

/** What asks the question; titles name it, and gates judge the answer. */
const isQuestion = (path: Path): boolean => {
  const key = path.join(".");
  if (/\btitle$|^plan\.sweep\.(gates|baseline|defaulted|model|name)\b|^plan\.(digest|format)$/.test(key)) return false;
  if (/^plan\.(conditions\.\d+\.craft|conditions\.\d+\.hover\.(?!throttle)|variants\.\d+\.trim|holding)/.test(key))
    return false; // what the craft makes of it
  return /^(axes\.(roll|pitch)\.grid|units|limits|variants|plan)\b|^provenance\.seed$|^hover\..*throttle$/.test(key);
};

/** What became of the change: "bad input", "not comparable", or the outcome of a comparison. */
function endOf(read: () => StabilityMap): string {
  try {
    const other = read();
    for (const sides of [
      [map, other],
      [other, map],
    ] as const) {
      const result = compareMaps(...sides, { productVersion: "0", command: "" });
      if (!("differences" in result)) return result.outcome;
      expect(result.differences.length).toBeGreaterThan(0);
    }
    return "not comparable";
  } catch (error) {
    if (error instanceof InputError) return "bad input";
    throw error;
  }
}

const REFUSED = ["bad input", "not comparable"];
const reading = (bent: StabilityMap) => () => parseMap(document(bent));
const readingBaseline = (bent: object) => () => parseBaseline(document(bent));

describe("one key of a map's question changed", () => {
  it("is bad input, whether the value was changed or the key taken away", () => {
    const paths = leaves(map).filter(isQuestion);
    expect(paths.length).toBeGreaterThan(200);
    for (const path of paths) {
      const bent = perturbed(map, path, (holder, key) => {
        holder[key] = changed(holder[key]);
      });
      expect([path.join("."), endOf(reading(bent))]).toEqual([path.join("."), "bad input"]);
    }
  });

  it("with the digests made anew is never one question with the map it was made of", () => {
    for (const path of leaves(map).filter(isQuestion)) {
      const bent = perturbed(map, path, (holder, key) => {
        holder[key] = changed(holder[key]);
      });
      const end = endOf(reading(redigested(bent)));
      expect([path.join("."), REFUSED.includes(end)]).toEqual([path.join("."), true]);
    }
  });

  it("of a baseline neither", () => {
    const paths = leaves(stored).filter((path) => isQuestion(path) && !path.join(".").startsWith("plan.conditions"));
    for (const path of paths) {
      const bent = perturbed(stored, path, (holder, key) => {
        holder[key] = changed(holder[key]);
      });
      for (const one of [bent, redigested(bent)])
        expect([path.join("."), REFUSED.includes(endOf(readingBaseline(one)))]).toEqual([path.join("."), true]);
    }
  });
});

describe("two maps of one grid moved as a whole, its plan with it", () => {
  it("are not comparable, and the grid is named", () => {
    const moved = perturbed(map, ["axes", "pitch", "grid", "p"], (holder) => {
      holder.p = (holder.p as number[]).map((p) => 1.01 * p);
    });
    const both = perturbed(moved, ["plan", "sweep", "grid", "pitch", "p"], (holder) => {
      holder.p = (holder.p as number[]).map((p) => 1.01 * p);
    });
    for (const candidate of [moved, both]) {
      const result = compareMaps(map, candidate, { productVersion: "0", command: "" });
      expect("differences" in result && result.differences[0]?.key).toMatch(/grid\.(pitch\.)?p/);
    }
    expect(reading(moved)).toThrow(/axes\.pitch\.grid\.p\[0\]: \S+ here, 3 in the plan/);
  });
});

describe("a table that is longer, shorter or in another order than the grid", () => {
  it("is bad input that names it", () => {
    const lists = leaves(map)
      .filter((path) => path[0] === "axes" && path[1] === "roll" && typeof path.at(-1) === "number")
      .map((path) => path.slice(0, path.findLastIndex((key) => typeof key === "string") + 1))
      .filter((path) => !["theory", "overshoot", "settling", "stable"].some((key) => path.includes(key)));
    const tables = [...new Map(lists.map((path) => [path.join("."), path])).values()];
    expect(tables.length).toBeGreaterThan(30);
    for (const path of tables.filter((one) => one.length < 7))
      for (const bend of [(rows: unknown[]) => rows.slice(1), (rows: unknown[]) => [...rows, rows[0]]]) {
        const bent = perturbed(map, path, (holder, key) => {
          holder[key] = bend(holder[key] as unknown[]);
        });
        expect(reading(bent), path.join(".")).toThrow(InputError);
      }
    const turned = perturbed(map, ["axes", "roll", "boundary", "sustained"], (holder) => {
      holder.sustained = [...(holder.sustained as unknown[])].reverse();
    });
    expect(reading(turned)).toThrow(/axes\.roll\.boundary\.sustained\[0\]\.d: 2 here, 0 in the grid/);
  });
});
