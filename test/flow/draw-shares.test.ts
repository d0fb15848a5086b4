// Draws on several machines: the same map as from one, or a refusal that names the file. No outside source: both are our own.
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { sha256 } from "../../src/base/digest.js";
import { drawsHead, drawsOfShares, gatherDraws, simulateDraws } from "../../src/flow/draw-shares.js";
import { type DrawsHead, drawsName, readDraws, writeDraws } from "../../src/flow/draws-file.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { shardName, writeShard } from "../../src/flow/shard-file.js";
import { gatherShards, shardCache, shardHead, simulateShare } from "../../src/flow/shards.js";
import type { SharedCommand } from "../../src/flow/share-file.js";
import { simulate } from "../../src/flow/simulate.js";
import { drawsOfShare } from "../../src/run/share.js";
import { complaintsOf } from "../fixtures/complaints.js";

// What knowing a number is worth takes most of the time here, and no share is asked for it.
vi.mock("../../src/confidence/worth.js", async (original) => ({ ...(await original<object>()), WORTH_DRAWS: 32 }));

const COMMAND: SharedCommand = { name: "sweep", sweep: "sweeps/x.yaml", model: "models/y.yaml" };
const DRAWS = 16;
const provenance = { productVersion: "0", command: "", model: "", sweep: "" };
const HERE = { workers: 0 };

/** The fixture with as few points, manoeuvres and draws as leave something to count. */
function plannedDraws() {
  const model = readAirframe("models/sandpiper-r1.yaml");
  const { value, document } = readSweep("test/fixtures/draws.yaml");
  const thinned = ({ p, d }: { p: readonly number[]; d: readonly number[] }) => ({
    p: p.filter((_, k) => k % 2 === 0),
    d: d.filter((_, k) => k % 3 === 0),
  });
  const { roll, pitch } = value.grid as Record<"roll" | "pitch", { p: readonly number[]; d: readonly number[] }>;
  const few = value.scripts.filter(({ script }) => ["nudge", "hover-noise"].includes(script.name));
  const sweep = {
    ...value,
    grid: { roll: thinned(roll), pitch: thinned(pitch) },
    scripts: few.map((one) => ({ ...one, throttle: ["hover" as const] })),
    uncertainty: { draws: DRAWS, confidence: 0.9, loopGain: 0 },
  };
  return { model, plan: planFor(model, { document, value: sweep as typeof value }) };
}

const request = plannedDraws();
const { plan, model } = request;
const plans = [plan];

const root = mkdtempSync(join(tmpdir(), "gainscape-draws-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** A folder with all shares of the grid and of the draws, over so many machines. */
const sharedOver = remembered(async (of) => {
  const folder = mkdtempSync(join(root, `over-${of}-`));
  const shares = Array.from({ length: of }, (_, k) => ({ index: k + 1, of }));
  for (const share of shares) {
    const tasks = await simulateShare(plans, share, HERE);
    writeShard(join(folder, shardName(share)), shardHead(COMMAND, plans, share), tasks);
  }
  const grid = shardCache(gatherShards([folder]), plans);
  for (const share of shares) {
    const counted = await simulateDraws([request], share, { ...HERE, cache: grid });
    writeDraws(join(folder, drawsName(share)), drawsHead(COMMAND, plans, share), counted);
  }
  return folder;
});

function remembered(make: (of: number) => Promise<string>): (of: number) => Promise<string> {
  const made = new Map<number, Promise<string>>();
  return (of) => {
    const folder = made.get(of) ?? make(of);
    made.set(of, folder);
    return folder;
  };
}

const moved = (from: string, to: string, name: string): [string, string] => [join(from, name), join(to, name)];

const merging = (folder: string) => ({
  ...shardCache(gatherShards([folder]), plans),
  draws: drawsOfShares(gatherDraws([folder]), plans),
});

describe("shares of draws", () => {
  it.each([1, 2, 3, 16, 17])("by %d are every draw once, as evenly as can be", (of) => {
    const shares = Array.from({ length: of }, (_, k) => drawsOfShare(DRAWS, { index: k + 1, of }));
    expect(shares.flat().sort((a, b) => a - b)).toEqual([...Array(DRAWS).keys()]);
    const sizes = shares.map(({ length }) => length);
    expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
  });
});

describe("all shares of the draws together", () => {
  let alone = "";
  let trials = 0;
  beforeAll(async () => {
    const { map, figures } = await simulate(plan, { ...HERE, provenance, model: model.document });
    alone = canonicalJson(map);
    trials = figures.trials;
    const counts = map.axes.roll.confidence?.safeDraws.flat() ?? [];
    expect(new Set(counts).size).toBeGreaterThan(2); // something to count
  });

  // 17: more than draws, and more than points.
  it.each([2, 3, 17])("of %d machines give the map of one, with none of their trials simulated again", async (of) => {
    const folder = await sharedOver(of);
    const cache = merging(folder);
    const { map, figures } = await simulate(plan, { ...HERE, provenance, model: model.document, cache });
    expect(canonicalJson(map)).toBe(alone);
    const counted = cache.draws(plan);
    const inDraws = (counted?.roll.trials ?? 0) + (counted?.pitch.trials ?? 0);
    expect(inDraws).toBeGreaterThan(DRAWS);
    expect(figures.trials).toBe(trials);
    expect(figures.simulated.trials).toBeLessThanOrEqual(trials - figures.gridTrials - inDraws);
  });

  it("are simulated by who merges where only the grid was shared out", async () => {
    const folder = mkdtempSync(join(root, "grid-"));
    for (const index of [1, 2]) copyFileSync(...moved(await sharedOver(2), folder, shardName({ index, of: 2 })));
    expect(merging(folder).draws(plan)).toBeNull();
  });
});

describe("shares of draws that are refused by name", () => {
  let complete = "";
  beforeAll(async () => {
    complete = await sharedOver(2);
  });
  const [one, two] = [1, 2].map((index) => drawsName({ index, of: 2 })) as [string, string];
  const refusals = (act: (folder: string) => void): string[] => {
    const folder = mkdtempSync(join(root, "some-"));
    for (const name of [one, two]) copyFileSync(...moved(complete, folder, name));
    act(folder);
    return complaintsOf(() => drawsOfShares(gatherDraws([folder]), plans)).map((line) =>
      line.replaceAll(`${folder}/`, ""),
    );
  };
  const again = (change: (head: DrawsHead) => DrawsHead) => (folder: string) => {
    const { head, plans: counted } = readDraws(join(folder, two));
    writeDraws(join(folder, two), change(head), counted);
  };

  it.each([
    ["one that is missing", (folder: string) => rmSync(join(folder, one)), `${one}: this share is missing`],
    [
      "one of other models",
      again((head) => ({ ...head, plans: [{ ...head.plans[0], digest: "0".repeat(64) }] as typeof head.plans })),
      `${two}: simulated with other models or sweeps than ${one}`,
    ],
    [
      "one of another build",
      again((head) => ({ ...head, code: "0".repeat(64) })),
      `${two}: simulated by another version of gainscape than ${one}`,
    ],
    [
      "one of another number of machines",
      again((head) => ({ ...head, share: { index: 3, of: 3 } })),
      `${two}: shared out over another number of machines than ${one}`,
    ],
    [
      "one cut short",
      (folder: string) => writeFileSync(join(folder, two), readFileSync(join(folder, two)).subarray(0, -40)),
      `${two}: was cut short or changed after it was written; simulate this shard again`,
    ],
    [
      "one that is none",
      (folder: string) => writeFileSync(join(folder, two), "a cake"),
      `${two}: is no share of draws written by gainscape --shard`,
    ],
    [
      "one that counts more draws than it has, sealed again",
      (folder: string) => {
        const bytes = readFileSync(join(folder, two)).subarray(0, -32);
        const edited = Buffer.from(bytes.toString("utf8").replace(/"counts":\[\d+/, '"counts":[9'));
        writeFileSync(join(folder, two), Buffer.concat([edited, sha256(edited)]));
      },
      `${two}: holds draws of another share`,
    ],
    [
      "one that counts no numbers, sealed again",
      (folder: string) => {
        const bytes = readFileSync(join(folder, two)).subarray(0, -32);
        const edited = Buffer.from(bytes.toString("utf8").replace(/"counts":\[\d+/, '"counts":["x"'));
        writeFileSync(join(folder, two), Buffer.concat([edited, sha256(edited)]));
      },
      `${two}: holds what no share of draws comes to; simulate this shard again`,
    ],
  ])("%s", (_, act, message) => {
    expect(refusals(act)).toEqual([message]);
  });

  it("both, where a model, sweep or script was edited since", () => {
    const edited = [{ ...plan, digests: { ...plan.digests, plan: "0".repeat(64) } }];
    const lines = complaintsOf(() => drawsOfShares(gatherDraws([complete]), edited));
    expect(lines.map((line) => line.replace(`${complete}/`, ""))).toEqual(
      [one, two].map((name) => `${name}: a model, sweep or script was changed since this share was simulated`),
    );
  });
});
