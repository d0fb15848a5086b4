// The cache in a run: cached trials are not simulated again, broken ones are, and the map is always the same.
import { chmodSync, cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { listCacheFiles } from "../../src/files/cache-files.js";
import { layered, openCache } from "../../src/flow/cache.js";
import { cacheContents, clearCache } from "../../src/flow/cache-contents.js";
import { simulate } from "../../src/flow/simulate.js";
import { type Plan, planSweep } from "../../src/plan/plan.js";
import { RunIncomplete } from "../../src/run/incomplete.js";
import { bothAxes } from "../fixtures/both-axes.js";
import { stillPlan } from "../run/tiny-plan.js";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gainscape-cache-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
const plan = stillPlan();

/** One run on the cache: its map as text, its figures and its notes. */
async function run(of: Plan, { cap = 2 ** 30, signal = new AbortController().signal, pointsPerTask = 4 } = {}) {
  const notes: string[] = [];
  const cache = openCache({ folder, cap, onNote: (line) => notes.push(line) });
  try {
    const { map, figures } = await simulate(of, { workers: 0, pointsPerTask, cache, signal, provenance });
    return { map: canonicalJson(map), figures, notes };
  } finally {
    cache.close();
  }
}

const unbroken = canonicalJson((await simulate(plan, { workers: 0, provenance })).map);

/** A cache that one run has filled, and that run. */
const filled = mkdtempSync(join(tmpdir(), "gainscape-cache-"));
folder = filled;
const first = await run(plan);
afterAll(() => rmSync(filled, { recursive: true, force: true }));
const fill = () => cpSync(filled, folder, { recursive: true });

describe("a second run", () => {
  it("with nothing changed simulates nothing, boundaries and starting tune included, and gives the same map", async () => {
    fill();
    expect(first.figures.simulated.trials).toBe(first.figures.trials);
    expect(first.figures.trials).toBeGreaterThan(first.figures.gridTrials);
    const second = await run(plan);
    expect(second.figures.simulated).toEqual({ trials: 0, steps: 0 });
    expect(second.figures.trials).toBe(first.figures.trials);
    expect([first.map, second.map, first.notes, second.notes]).toEqual([unbroken, unbroken, [], []]);
  });

  it("with one script changed simulates that script alone", async () => {
    fill();
    const scripts = plan.sweep.scripts.map((use) =>
      use.script.name === "wash" ? { ...use, script: { ...use.script, window: { from: 0.3, to: 0.85 } } } : use,
    );
    const changed = planSweep(plan.airframe, { ...plan.sweep, scripts }) as Plan;
    const alone = planSweep(plan.airframe, { ...plan.sweep, scripts: scripts.slice(1) }) as Plan;
    const { figures, map } = await run(changed);
    const gridOfOne = plan.sweep.grid.roll.p.length * plan.sweep.grid.roll.d.length * 2;
    const searched = figures.trials - figures.gridTrials;
    expect(figures.simulated.trials).toBeGreaterThanOrEqual(gridOfOne);
    expect(figures.simulated.trials).toBeLessThanOrEqual(gridOfOne + searched);
    expect(map).toBe(canonicalJson((await simulate(changed, { workers: 0, provenance })).map));
    const rest = await run(alone);
    expect(rest.figures.simulated.trials).toBe(0);
  });

  it("with another craft simulates everything", async () => {
    fill();
    const heavier = planSweep({ ...plan.airframe, mass: 0.63 }, plan.sweep) as Plan;
    const { figures } = await run(heavier);
    expect(figures.simulated.trials).toBe(figures.trials);
  });
});

describe("a run that was stopped", () => {
  it.each([1, 9])("after %d tasks goes on from there, to the same map", async (tasks) => {
    const controller = new AbortController();
    const cache = openCache({ folder });
    let done = 0;
    const stopped = simulate(plan, {
      workers: 0,
      pointsPerTask: 4,
      cache,
      signal: controller.signal,
      provenance,
      onProgress: () => {
        if (++done === tasks) controller.abort();
      },
    });
    await expect(stopped).rejects.toBeInstanceOf(RunIncomplete);
    await expect(stopped).rejects.toMatchObject({ resumable: true });
    const { map, figures } = await run(plan);
    expect(map).toBe(unbroken);
    expect(figures.trials - figures.simulated.trials).toBeGreaterThanOrEqual(tasks);
    expect(figures.simulated.trials).toBeGreaterThan(0);
  });
});

describe("broken files", () => {
  it("are reported, dropped and simulated again: cut short, flipped, foreign, empty", async () => {
    fill();
    const files = listCacheFiles(folder).sort((a, b) => (a.key < b.key ? -1 : 1));
    const spoil: ((bytes: Buffer) => Uint8Array)[] = [
      (bytes) => bytes.subarray(0, bytes.length - 7),
      (bytes) => bytes.map((byte, at) => (at === 200 ? byte ^ 1 : byte)),
      () => readFileSync(files.at(-1)?.path ?? ""),
      () => new Uint8Array(0),
    ];
    for (const [at, act] of spoil.entries()) writeFileSync(files[at].path, act(readFileSync(files[at].path)));
    expect(cacheContents(folder).broken).toBe(4);
    const { map, notes, figures } = await run(plan);
    expect(map).toBe(unbroken);
    expect(notes.map((line) => line.replace(/ \d+ trials.*/, ""))).toEqual(
      expect.arrayContaining([
        `cache: ${files[0].path} was cut short; dropped, its`,
        `cache: ${files[1].path} was changed after it was written; dropped, its`,
        `cache: ${files[2].path} holds other trials than its name says; dropped, its`,
        `cache: ${files[3].path} is not a file of cached trials; dropped, its`,
      ]),
    );
    expect(notes.length).toBe(4);
    expect(figures.simulated.trials).toBeGreaterThan(0);
    expect(figures.simulated.trials).toBeLessThan(first.figures.trials);
    expect(cacheContents(folder).broken).toBe(0);
    expect((await run(plan)).notes).toEqual([]);
  });

  it("by the dozen are counted, not listed", async () => {
    fill();
    const files = listCacheFiles(folder);
    for (const { path } of files) writeFileSync(path, "nonsense");
    const { map, notes } = await run(plan);
    expect(map).toBe(unbroken);
    expect(notes.length).toBe(6);
    expect(notes.at(-1)).toBe(`cache: ${files.length - 5} more files were dropped and are made again`);
  });
});

describe("a cache that cannot be used", () => {
  it("because a file stands in its place costs the run nothing but a line", async () => {
    writeFileSync(join(folder, "file"), "");
    folder = join(folder, "file");
    const { map, notes } = await run(plan);
    expect(map).toBe(unbroken);
    expect(notes).toEqual([expect.stringMatching(/^cache: .* could not be written \(\w+\); this run goes on without/)]);
    folder = join(folder, "..");
  });

  it.skipIf(process.getuid?.() === 0)("because it is read-only", async () => {
    chmodSync(folder, 0o500);
    const { map, notes } = await run(plan);
    expect([map, notes.length]).toEqual([unbroken, 1]);
    chmodSync(folder, 0o700);
  });
});

describe("the size of the cache", () => {
  it("stays under its cap while a run is under way and after it", async () => {
    const cap = Math.round(cacheContents(filled).bytes / 4);
    const cache = openCache({ folder, cap });
    let most = 0;
    const onProgress = () => {
      most = Math.max(most, cacheContents(folder).bytes);
    };
    const { map } = await simulate(plan, { workers: 0, pointsPerTask: 4, cache, provenance, onProgress });
    cache.close();
    expect(canonicalJson(map)).toBe(unbroken);
    expect(most).toBeLessThan(1.2 * cap);
    expect(cacheContents(folder).bytes).toBeLessThanOrEqual(cap);
  });

  it("is reported with its trials, and is zero once cleared", () => {
    fill();
    const contents = cacheContents(folder);
    expect(contents).toMatchObject({ trials: first.figures.trials, broken: 0, files: listCacheFiles(folder).length });
    expect(clearCache(folder)).toBe(contents.files);
    expect(cacheContents(folder)).toEqual({ files: 0, trials: 0, finished: 0, bytes: 0, broken: 0 });
  });
});

describe("two runs at once on one cache", () => {
  it("give the same map", async () => {
    const both = await Promise.all([run(plan), run(plan, { cap: 20_000 })]);
    expect(both.map(({ map }) => map)).toEqual([unbroken, unbroken]);
    expect(both.flatMap(({ notes }) => notes)).toEqual([]);
    expect(cacheContents(folder).broken).toBe(0);
  });
});

describe("one cache in front of another", () => {
  it("is read first; what is simulated goes into the one behind", async () => {
    fill();
    const behind = mkdtempSync(join(tmpdir(), "gainscape-cache-"));
    const scripts = plan.sweep.scripts.slice(0, 1);
    const more = planSweep(plan.airframe, {
      ...plan.sweep,
      grid: bothAxes({ ...plan.sweep.grid.roll, d: [1e-4, 2e-4] }),
      scripts,
    }) as Plan;
    const cache = layered(openCache({ folder }), openCache({ folder: behind }));
    const before = cacheContents(folder).files;
    const { figures } = await simulate(more, { workers: 0, cache, provenance });
    expect(cacheContents(folder).files).toBe(before);
    expect(cacheContents(behind).trials).toBe(figures.simulated.trials);
    rmSync(behind, { recursive: true });
  });
});
