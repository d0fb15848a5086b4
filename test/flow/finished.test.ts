// Finished maps and pages in the cache: nothing is made twice, anything that shows makes them anew.
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, describe, expect, it } from "vitest";
import { listCacheFiles } from "../../src/files/cache-files.js";
import { layered, openCache } from "../../src/flow/cache.js";
import { cacheContents } from "../../src/flow/cache-contents.js";
import { runMap } from "../../src/flow/run-map.js";
import { writeReport } from "../../src/flow/write.js";
import { type Plan, planSweep } from "../../src/plan/plan.js";
import { stillPlan } from "../run/tiny-plan.js";

let home = "";
let folder = "";
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), "gainscape-finished-"));
  folder = join(home, "cache");
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

const plan = stillPlan();
const planned = (change: (plan: Plan) => readonly [Plan["airframe"], Plan["sweep"]]) =>
  planSweep(...change(plan)) as Plan;

const document = (file: string) => ({ file, data: null, place: () => ({ line: 0, column: 0 }) });

let outs = 0;
/** One sweep on the cache, its files included: their bytes by name, and the notes. */
async function sweep(of: Plan, { cap = 2 ** 30, cached = true, model = "model.yaml" } = {}) {
  const out = join(home, `out-${outs++}`);
  const notes: string[] = [];
  const cache = cached ? openCache({ folder, cap, onNote: (line) => notes.push(line) }) : undefined;
  const input = {
    sweep: { value: of.sweep, document: document("sweep.yaml") },
    model: { value: of.airframe, document: document(model) },
    plan: of,
  };
  const { map, figures, unchanged } = await runMap(input, { workers: 0, cache });
  await writeReport(map, out, { cache });
  cache?.close();
  const files = Object.fromEntries(readdirSync(out).map((name) => [name, readFileSync(join(out, name), "utf8")]));
  return { files, figures, unchanged, notes };
}

/** A cache that one run has filled, and that run. */
const filled = mkdtempSync(join(tmpdir(), "gainscape-finished-"));
[home, folder] = [filled, join(filled, "cache")];
const first = await sweep(plan);
afterAll(() => rmSync(filled, { recursive: true, force: true }));
const fill = () => cpSync(join(filled, "cache"), folder, { recursive: true });

const texts = () => listCacheFiles(folder).filter(({ kind }) => kind === "texts");
const holdPages = () => texts().map(({ path }) => readFileSync(path, "latin1").includes('["page",'));

describe("a sweep of which nothing has changed", () => {
  it("is written from the cache: the bytes of a run without a cache", async () => {
    const alone = await sweep(plan, { cached: false });
    fill();
    const second = await sweep(plan);
    expect([alone.unchanged, first.unchanged, second.unchanged]).toEqual([false, false, true]);
    expect(Object.keys(alone.files).sort()).toEqual(["card.html", "index.html", "map.json", "points.csv"]);
    expect(first.files).toEqual(alone.files);
    expect(second.files).toEqual(alone.files);
    expect(second.figures).toMatchObject({
      trials: first.figures.trials,
      steps: first.figures.steps,
      gridTrials: first.figures.gridTrials,
      simulated: { trials: 0, steps: 0 },
    });
    expect(cacheContents(folder)).toMatchObject({ trials: first.figures.trials, finished: 2, broken: 0 });
    expect(holdPages().sort()).toEqual([false, true]);
  });
});

describe("what makes map and page anew, from cached trials", () => {
  it.each([
    ["a limit", planned(({ airframe, sweep }) => [airframe, { ...sweep, limits: { ...sweep.limits, overshoot: 14 } }])],
    ["a wanted margin", planned(({ airframe, sweep }) => [airframe, { ...sweep, margins: { gain: 7, phase: 0.7 } }])],
    ["a gate", planned(({ airframe, sweep }) => [airframe, { ...sweep, gates: { ...sweep.gates, safeShrink: 14 } }])],
    ["the sweep's title", planned(({ airframe, sweep }) => [airframe, { ...sweep, title: "another" }])],
    ["the craft's title", planned(({ airframe, sweep }) => [{ ...airframe, title: "another" }, sweep])],
  ])("%s", async (_, other) => {
    fill();
    const { unchanged, files, figures } = await sweep(other);
    expect(unchanged).toBe(false);
    expect(figures.simulated.trials).toBeLessThan(figures.trials);
    expect(files["map.json"]).not.toBe(first.files["map.json"]);
    expect(files).toEqual((await sweep(other, { cached: false })).files);
  });

  it("another name of the model's file, which the page shows", async () => {
    fill();
    const { unchanged, files } = await sweep(plan, { model: "other.yaml" });
    expect(unchanged).toBe(false);
    expect(files["index.html"]).toContain("other.yaml");
  });
});

describe("a broken map or page in the cache", () => {
  it("is reported, dropped and made again: flipped, cut short, another's", async () => {
    fill();
    const spoil: ((bytes: Buffer, other: Buffer) => Uint8Array)[] = [
      (bytes) => bytes.map((byte, at) => (at === bytes.length >> 1 ? byte ^ 1 : byte)),
      (bytes) => bytes.subarray(0, bytes.length - 9),
      (_, other) => other,
    ];
    for (const act of spoil) {
      const [one, other] = texts();
      const bytes = [one, other].map(({ path }) => readFileSync(path));
      writeFileSync(one.path, act(bytes[0], bytes[1]));
      writeFileSync(other.path, act(bytes[1], bytes[0]));
      expect(cacheContents(folder).broken).toBe(2);
      const { files, notes, figures } = await sweep(plan);
      expect(files).toEqual(first.files);
      expect(notes.length).toBe(2);
      for (const note of notes)
        expect(note).toMatch(
          /^cache: .*\.texts (was cut short or changed|holds other files).*; dropped, its content is made again/,
        );
      expect(figures.simulated.trials).toBe(0);
      expect((await sweep(plan)).notes).toEqual([]);
    }
  });
});

describe("where room is short", () => {
  it("trials are cached and finished files are not", async () => {
    fill();
    const [least] = texts().sort((a, b) => a.bytes - b.bytes);
    rmSync(folder, { recursive: true });
    await sweep(plan, { cap: 4 * least.bytes - 4 });
    expect(texts()).toEqual([]);
    expect((await sweep(plan)).figures).toMatchObject({ trials: first.figures.trials, simulated: { trials: 0 } });
  });
});

describe("a cache behind another", () => {
  it("caches finished files", () => {
    const behind = openCache({ folder });
    const { texts: _, ...front } = openCache({ folder: join(home, "front") });
    expect(layered(front, behind)?.texts).toBe(behind.texts);
    expect(layered(front, undefined)?.texts).toBe(undefined);
  });
});
