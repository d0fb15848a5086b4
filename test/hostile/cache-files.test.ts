// Cache and shard files as a failing disk or an attacker would leave them.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sha256 } from "../../src/base/digest.js";
import { ABSENCES, MEASURE_IDS } from "../../src/base/measures.js";
import { cacheFilePath } from "../../src/files/cache-files.js";
import { openCache, trialCode } from "../../src/flow/cache.js";
import { decodeTexts, encodeTexts } from "../../src/flow/cached-texts.js";
import { drawsHead, drawsOfShares, gatherDraws } from "../../src/flow/draw-shares.js";
import { drawsName, writeDraws } from "../../src/flow/draws-file.js";
import { readShard, shardName, writeShard } from "../../src/flow/shard-file.js";
import { gatherShards, shardCache, shardHead, simulateShare } from "../../src/flow/shards.js";
import { gridTasks } from "../../src/run/chunks.js";
import { encodeTask } from "../../src/run/encoded-task.js";
import { OUTCOMES, type TaskResult } from "../../src/run/task.js";
import { taskRunner } from "../../src/run/task-runner.js";
import { taskKeys } from "../../src/run/trial-key.js";
import { tinyPlan } from "../run/tiny-plan.js";
import { edited, edits, place, tried } from "./cases.js";
import { expectReadable, usedOrRefused } from "./outcome.js";

const plan = tinyPlan();
const [task] = gridTasks(plan, 4);
const result = taskRunner(plan)(task);
const key = taskKeys(plan, trialCode())(task);

/** Bytes flipped, cut, doubled or put in, and the seal made to hold again or not. */
const injuries = fc.record({
  act: fc.constantFrom("flip", "cut", "insert", "double", "zero", "nothing"),
  place,
  bytes: fc.uint8Array({ minLength: 1, maxLength: 80 }),
  resealed: fc.boolean(),
});

function injured(
  intact: Uint8Array,
  { act, place, bytes, resealed }: typeof injuries extends fc.Arbitrary<infer T> ? T : never,
) {
  const at = Math.floor(place * intact.length);
  const [head, tail] = [intact.subarray(0, at), intact.subarray(at)];
  const made = {
    flip: () =>
      intact.map((byte, index) => (index >= at && index < at + bytes.length ? byte ^ (bytes[index - at] ?? 0) : byte)),
    cut: () => head,
    insert: () => Buffer.concat([head, bytes, tail]),
    double: () => Buffer.concat([intact, tail]),
    zero: () => intact.map((byte, index) => (index >= at ? 0 : byte)),
    nothing: () => intact,
  }[act]();
  if (!resealed || made.length < 32) return made;
  const open = made.subarray(0, made.length - 32);
  return Buffer.concat([open, sha256(open)]);
}

const folder = mkdtempSync(join(tmpdir(), "gainscape-hostile-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function expectSound({ values, until, absent, outcome, steps }: TaskResult): void {
  expect([values.length, absent.length, until.length]).toEqual([4 * MEASURE_IDS.length, 4 * MEASURE_IDS.length, 4]);
  for (const number of [...values, ...until, steps]) if (!Number.isFinite(number)) throw new Error(`${number}`);
  for (const code of absent) expect(code).toBeLessThan(ABSENCES.length);
  for (const code of outcome) expect(code).toBeLessThan(OUTCOMES.length);
}

describe("a cache file", () => {
  it("is complete, or reported and dropped; a run never gets unusable data from it", () => {
    const notes: string[] = [];
    const intact = encodeTask(key, result);
    openCache({ folder }).of(plan).put(task, result);
    tried(0.4, injuries, (injury) => {
      writeFileSync(cacheFilePath(folder, key), injured(intact, injury));
      const found = openCache({ folder, onNote: (line) => notes.push(line) })
        .of(plan)
        .get(task);
      if (found !== null) expectSound(found);
      if (injury.act === "nothing") expect(found).toEqual(result);
    });
    expect(notes.length).toBeGreaterThan(10);
    for (const note of notes) expectReadable(note);
  });
});

describe("a cached report", () => {
  const texts = { map: '{"a":1}', page: "<p>ä</p>" };
  const textKey = "5".repeat(64);
  const intact = encodeTexts(textKey, texts);

  it("is complete or refused, whatever was done to it", () => {
    tried(0.1, injuries, (injury) => {
      const found = decodeTexts(textKey, injured(intact, injury));
      if (typeof found === "string") expectReadable(found);
      else if (!injury.resealed) expect({ ...found }).toEqual(texts);
      if (injury.act === "nothing") expect(found).not.toBeTypeOf("string");
    });
  });
});

describe("a shard file", () => {
  const file = join(folder, shardName({ index: 1, of: 1 }));
  let intact = new Uint8Array();
  beforeAll(async () => {
    const share = { index: 1, of: 1 };
    const head = shardHead({ name: "sweep", sweep: "a.yaml", model: "b.yaml" }, [plan], share);
    writeShard(file, head, await simulateShare([plan], share, { workers: 0 }));
    intact = readFileSync(file);
  });

  it("is used as a whole or refused", () => {
    tried(0.15, injuries, (injury) => {
      writeFileSync(file, injured(intact, injury));
      usedOrRefused(() => shardCache(gatherShards([folder]), [plan]));
    });
  });

  it("with any head is used or refused", () => {
    const end = intact.indexOf(10);
    const head = JSON.parse(new TextDecoder().decode(intact.subarray(0, end)));
    tried(0.15, edits, (list) => {
      const open = Buffer.concat([Buffer.from(JSON.stringify(edited(head, list)) ?? ""), intact.subarray(end, -32)]);
      writeFileSync(file, Buffer.concat([open, sha256(open)]));
      usedOrRefused(() => readShard(file));
      usedOrRefused(() => shardCache(gatherShards([folder]), [plan]));
    });
  });
});

describe("a share of draws", () => {
  const file = join(folder, drawsName({ index: 1, of: 1 }));
  const counts = plan.sweep.grid.roll.d.flatMap(() => plan.sweep.grid.roll.p.map((_, k) => k));
  const axis = { trials: 7, counts };
  const head = drawsHead({ name: "sweep", sweep: "a.yaml", model: "b.yaml" }, [plan], { index: 1, of: 1 });
  writeDraws(file, head, [{ steps: 70, roll: axis, pitch: axis }]);
  const intact = readFileSync(file);

  it("is used as a whole or refused", () => {
    tried(0.15, injuries, (injury) => {
      writeFileSync(file, injured(intact, injury));
      usedOrRefused(() => drawsOfShares(gatherDraws([folder]), [plan]));
    });
  });

  it("with any counts is used or refused", () => {
    const end = intact.indexOf(10);
    const content = JSON.parse(new TextDecoder().decode(intact.subarray(end + 1, -32)));
    tried(0.15, edits, (list) => {
      const made = JSON.stringify(edited(content, list)) ?? "";
      const open = Buffer.concat([intact.subarray(0, end + 1), Buffer.from(made)]);
      writeFileSync(file, Buffer.concat([open, sha256(open)]));
      usedOrRefused(() => drawsOfShares(gatherDraws([folder]), [plan]));
    });
  });
});
