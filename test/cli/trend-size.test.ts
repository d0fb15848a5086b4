// Records by the thousand: streamed, one model after the other, so that their number costs time and no memory.
import { appendFileSync, mkdirSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { record } from "../trend/records.js";
import { emptyFolder, MAIN, runWith } from "./command.js";

const [MODELS, NIGHTS] = [12, 1000];
const HEAP = 96; // MiB, less than the records have once all of them are values

it("a thousand nights of a dozen models need the memory of one", async () => {
  const folder = emptyFolder();
  mkdirSync(join(folder, "records"));
  const day = (k: number) => new Date(Date.UTC(2020, 0, 1 + k)).toISOString().slice(0, 10);
  for (let model = 0; model < MODELS; model++) {
    const lines = Array.from({ length: NIGHTS }, (_, k) => {
      const since = k < 400 ? 0 : 1;
      return canonicalJson(
        record({ name: `Scout-${model}`, version: `r${since}`, date: day(k), boundary: [30, 40 - 4 * since, 50] }),
      );
    });
    appendFileSync(join(folder, "records", `scout-${model}.jsonl`), `${lines.join("\n")}\n`);
  }
  const shell = `ulimit -c 0; export NODE_OPTIONS=--max-old-space-size=${HEAP}`;
  const words = ["trend", join(folder, "records"), "--out", join(folder, "out")];
  const { code, stdout, stderr } = await runWith({ shell, main: MAIN }, ...words);
  expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
  expect(stdout.replaceAll("\u00a0", " ").match(/r1: roll boundary falls 10 % at D 1 since 2021-02-04/g)).toHaveLength(
    MODELS,
  );
  expect(stdout).toContain("2 maps in 1 000 records".replace(" 000", "\u00a0000"));
  expect(readdirSync(join(folder, "out"))).toHaveLength(MODELS + 1);
}, 240_000);
