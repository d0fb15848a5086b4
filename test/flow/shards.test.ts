// Shares of one command put together: the same map as from one machine, or a refusal that names the file.
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { sha256 } from "../../src/base/digest.js";
import { readShard, type ShardHead, shardName, writeShard } from "../../src/flow/shard-file.js";
import { gatherShards, shardCache, shardHead, simulateShare } from "../../src/flow/shards.js";
import type { SharedCommand } from "../../src/flow/share-file.js";
import { simulate } from "../../src/flow/simulate.js";
import { gridTasks } from "../../src/run/chunks.js";
import { tasksOfShare } from "../../src/run/share.js";
import { complaintsOf } from "../fixtures/complaints.js";
import { stillPlan } from "../run/tiny-plan.js";

const plan = stillPlan();
const COMMAND: SharedCommand = { name: "sweep", sweep: "sweeps/x.yaml", model: "models/y.yaml" };
const OF = 3;

const root = mkdtempSync(join(tmpdir(), "gainscape-shards-"));
const complete = join(root, "whole");
afterAll(() => rmSync(root, { recursive: true, force: true }));

async function runShare(
  folder: string,
  index: number,
  of = OF,
  change: (head: ShardHead) => ShardHead = (head) => head,
) {
  const share = { index, of };
  const file = join(folder, shardName(share));
  writeShard(file, change(shardHead(COMMAND, [plan], share)), await simulateShare([plan], share, { workers: 0 }));
  return file;
}

/** A folder with copies of some files of the full set. */
function copies(...indices: number[]): string {
  const folder = mkdtempSync(join(root, "some-"));
  for (const index of indices) {
    const name = shardName({ index, of: OF });
    copyFileSync(join(complete, name), join(folder, name));
  }
  return folder;
}

beforeAll(async () => {
  for (let index = 1; index <= OF; index++) await runShare(complete, index);
});

describe("shares of a grid", () => {
  it.each([1, 2, 3, 7, 100])("by %d are every task once", (of) => {
    const tasks = gridTasks(plan, 4);
    const shares = Array.from({ length: of }, (_, at) => tasksOfShare(tasks, { index: at + 1, of }));
    expect(shares.flat().length).toBe(tasks.length);
    expect(new Set(shares.flat())).toEqual(new Set(tasks));
    const sizes = shares.map(({ length }) => length);
    expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
  });
});

describe("all shares together", () => {
  it("give the map one machine gives, with no trial of the grid simulated again", async () => {
    const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
    const alone = await simulate(plan, { workers: 0, provenance });
    const shards = gatherShards([copies(3, 1), copies(2)]);
    expect(shards.map(({ head }) => head.share.index)).toEqual([1, 2, 3]);
    const merged = await simulate(plan, { workers: 0, provenance, cache: shardCache(shards, [plan]) });
    expect(canonicalJson(merged.map)).toBe(canonicalJson(alone.map));
    expect(merged.figures.simulated.trials).toBe(merged.figures.trials - merged.figures.gridTrials);
  });

  it("hold trials that one machine leaves out, and give its map all the same", async () => {
    const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
    const wide = stillPlan(7, { p: [12, 40, 60, 80, 100, 120], d: [1, 3, 5, 7] });
    const alone = await simulate(wide, { workers: 0, provenance });
    expect(alone.map.axes.roll.leftOut?.points).toBeGreaterThan(0);
    const folder = mkdtempSync(join(root, "wide-"));
    for (const index of [1, 2]) {
      const share = { index, of: 2 };
      const tasks = await simulateShare([wide], share, { workers: 0 });
      writeShard(join(folder, shardName(share)), shardHead(COMMAND, [wide], share), tasks);
    }
    const cache = shardCache(gatherShards([folder]), [wide]);
    const merged = await simulate(wide, { workers: 0, provenance, cache });
    expect(canonicalJson(merged.map)).toBe(canonicalJson(alone.map));
    // The grid comes from the shards, and where the search asks for points of the grid, so do these.
    expect(merged.figures.simulated.trials).toBeLessThanOrEqual(merged.figures.trials - merged.figures.gridTrials);
  });

  it("are the same bytes whoever simulates them", async () => {
    const again = mkdtempSync(join(root, "again-"));
    const file = await runShare(again, 2);
    expect(readFileSync(file).equals(readFileSync(join(complete, shardName({ index: 2, of: OF }))))).toBe(true);
  });
});

describe("shares that do not belong together are refused by name", () => {
  const refusalsOf = (...folders: string[]) =>
    complaintsOf(() => gatherShards(folders)).map((line) => line.replaceAll(root, ""));

  it("a gap", () => {
    expect(refusalsOf(copies(2))).toEqual([
      "shard-1-of-3.trials: this share is missing",
      "shard-3-of-3.trials: this share is missing",
    ]);
  });

  it("an overlap", () => {
    const [one, two] = [copies(1, 2), copies(2, 3)];
    expect(refusalsOf(one, two)).toEqual([
      `${two}/shard-2-of-3.trials: share 2 of 3 again, as ${one}/shard-2-of-3.trials`.replaceAll(root, ""),
    ]);
  });

  it.each([
    ["another number of machines", OF + 1, (head: ShardHead) => head],
    [
      "another version of gainscape",
      OF,
      (head: ShardHead) => ({ ...head, product: { ...head.product, version: "9.9.9" } }),
    ],
    ["another version of gainscape", OF, (head: ShardHead) => ({ ...head, code: "0".repeat(64) })],
    [
      "another command",
      OF,
      (head: ShardHead) => ({ ...head, command: { ...COMMAND, sweep: "z.yaml" } as SharedCommand }),
    ],
    [
      "other models or sweeps",
      OF,
      (head: ShardHead) => ({ ...head, plans: [{ ...head.plans[0], digest: "0".repeat(64) }] }),
    ],
  ])("of %s", async (what, of, change) => {
    const folder = copies(1, 2);
    const file = await runShare(folder, 3, of, change);
    const [line, ...more] = refusalsOf(folder);
    expect(line).toContain(`${file.replace(root, "")}: `);
    expect(line).toContain(what);
    expect(more).toEqual([]);
  });

  it("no shard at all, and no folder", () => {
    expect(refusalsOf(mkdtempSync(join(root, "empty-")))[0]).toMatch(/holds no shard, as shard-1-of-4\.trials/);
    expect(refusalsOf(join(root, "nowhere"))).toEqual(["/nowhere: not there"]);
    expect(refusalsOf(join(complete, shardName({ index: 1, of: OF })))[0]).toMatch(
      /this is a shard; expected a folder that holds shards/,
    );
  });
});

describe("a shard that is not what it was", () => {
  const name = shardName({ index: 2, of: OF });
  const spoilt = (act: (bytes: Buffer) => Uint8Array): string[] => {
    const folder = copies(1, 3);
    writeFileSync(join(folder, name), act(readFileSync(join(complete, name))));
    return complaintsOf(() => shardCache(gatherShards([folder]), [plan])).map((line) => line.replace(/^.*\//, ""));
  };
  const changed = `${name}: was cut short or changed after it was written; simulate this shard again`;

  it("cut short, flipped, empty or foreign", () => {
    expect(spoilt((bytes) => bytes.subarray(0, bytes.length - 100))).toEqual([changed]);
    expect(spoilt((bytes) => bytes.map((byte, at) => (at === bytes.length - 500 ? byte ^ 4 : byte)))).toEqual([
      changed,
    ]);
    expect(spoilt(() => new Uint8Array(0))).toEqual([`${name}: is no shard written by gainscape --shard`]);
    expect(spoilt(() => Buffer.from("{}\n{}"))).toEqual([`${name}: is no shard written by gainscape --shard`]);
  });

  it("with blocks taken out, doubled or of another share, and sealed again", () => {
    const resealed = (bytes: Uint8Array) => Buffer.concat([bytes, sha256(bytes)]);
    const lengths = readShard(join(complete, name)).tasks.map(({ length }) => length);
    const without = spoilt((bytes) => resealed(bytes.subarray(0, bytes.length - 32 - (lengths.at(-1) ?? 0))));
    expect(without).toEqual([`${name}: lacks 1 of its ${lengths.length} blocks of trials; simulate it again`]);
    const other = readFileSync(join(complete, shardName({ index: 1, of: OF })));
    const more = spoilt((bytes) =>
      resealed(Buffer.concat([bytes.subarray(0, -32), other.subarray(other.indexOf(10) + 1, -32)])),
    );
    expect(more).toEqual([`${name}: holds trials of another share`]);
    const half = spoilt((bytes) => resealed(bytes.subarray(0, bytes.length - 32 - 9)));
    expect(half).toEqual([
      expect.stringMatching(`^${name}: was cut short \\(trial block \\d+\\); simulate this shard again$`),
    ]);
  });

  it("because a model, sweep or script was edited since", () => {
    const shards = gatherShards([complete]);
    const lines = complaintsOf(() => shardCache(shards, [stillPlan(8)]));
    expect(lines.map((line) => line.replace(/^.*\//, ""))).toEqual(
      [1, 2, 3].map(
        (index) => `shard-${index}-of-3.trials: a model, sweep or script was changed since this share was simulated`,
      ),
    );
    expect(complaintsOf(() => shardCache(shards, [plan, plan])).length).toBe(3);
  });
});

describe("a shard's name", () => {
  it("cannot lead out of its folder", () => {
    expect(readdirSync(complete).sort()).toEqual([1, 2, 3].map((index) => shardName({ index, of: 3 })));
  });
});
