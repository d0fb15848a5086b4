// The same plan gives the same map, bit for bit, whatever carries it out. Runs what is shipped: workers load from dist.
import { cpSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { digestOf } from "../../src/base/digest.js";
import type { openCache as OpenCache } from "../../src/flow/cache.js";
import type { simulate as Simulate, SimulateOptions } from "../../src/flow/simulate.js";
import { tinyPlan } from "./tiny-plan.js";

/** Workers (0: everything in the calling thread) and points a task: each of both at least once. */
const SPLITS = [
  [0, 1],
  [1, 64],
  [2, 7],
  [3, 1],
] as const;

const provenance = { productVersion: "0", command: "", model: "", sweep: "" };

interface Built {
  readonly simulate: typeof Simulate;
  readonly openCache: typeof OpenCache;
}

/** What is needed here of a build in `folder`. */
async function builtIn(folder: string): Promise<Built> {
  const load = (file: string) => import(pathToFileURL(join(folder, file)).href);
  return { ...(await load("flow/simulate.js")), ...(await load("flow/cache.js")) };
}

const home = mkdtempSync(join(tmpdir(), "gainscape-determinism-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** The build without its bytecode: every trial runs through the plain loop. */
function withoutVectors(): string {
  const folder = join(home, "dist");
  const bytecode = readdirSync("dist", { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".wasm"));
  expect(bytecode.length).toBeGreaterThan(0);
  cpSync("dist", folder, { recursive: true, filter: (file) => !file.endsWith(".wasm") });
  cpSync("package.json", join(home, "package.json"));
  symlinkSync(resolve("node_modules"), join(home, "node_modules"));
  return folder;
}

let built: Built;
let plain: Built;
beforeAll(async () => {
  built = await builtIn("dist");
  plain = await builtIn(withoutVectors());
});

const mapWith = async (options: Omit<SimulateOptions, "provenance">, { simulate } = built, seed = 7) =>
  (await simulate(tinyPlan(seed), { ...options, provenance })).map;

let reference: Awaited<ReturnType<typeof Simulate>>;
let serial: string;
beforeAll(async () => {
  reference = await built.simulate(tinyPlan(), { workers: 0, provenance });
  serial = digestOf(reference.map);
});

describe("one digest of the canonical map", () => {
  it.each(SPLITS)("with %d workers and %d points a task", async (workers, pointsPerTask) => {
    expect(digestOf(await mapWith({ workers, pointsPerTask }))).toBe(serial);
  });

  it("for each repetition", async () => {
    expect(digestOf(await mapWith({ workers: 0 }))).toBe(serial);
  });

  it.each([0, 2])("with vectors and without, %d workers", async (workers) => {
    expect(digestOf(await mapWith({ workers, pointsPerTask: 7 }, plain))).toBe(serial);
  });

  it.each([1, 9])("stopped after %d tasks and gone on by other workers", async (tasks) => {
    const cache = built.openCache({ folder: join(home, `cache-${tasks}`) });
    const controller = new AbortController();
    let done = 0;
    const onProgress = () => {
      if (++done === tasks) controller.abort();
    };
    const stopped = mapWith({ workers: 0, pointsPerTask: 4, cache, signal: controller.signal, onProgress });
    await expect(stopped).rejects.toMatchObject({ name: "RunIncomplete", resumable: true });
    expect(digestOf(await mapWith({ workers: 2, pointsPerTask: 4, cache }))).toBe(serial);
    expect(digestOf(await mapWith({ workers: 0, pointsPerTask: 7, cache }))).toBe(serial);
  });
});

describe("what the digest stands for", () => {
  it("depends on the seed: other noise, other measures", async () => {
    const other = await mapWith({ workers: 0 }, built, 8);
    expect(other.axes.roll.measures.wobbleAngle).not.toEqual(reference.map.axes.roll.measures.wobbleAngle);
  });

  it("holds verdicts of more than one kind and a boundary that was bisected", () => {
    const { map, figures } = reference;
    expect(figures.trials).toBeGreaterThan(figures.gridTrials);
    for (const axis of [map.axes.roll, map.axes.pitch]) {
      expect(new Set(axis.verdict.flat()).size).toBeGreaterThan(1);
      expect(axis.boundary.sustained.some(({ p }) => p !== null)).toBe(true);
    }
  });
});
