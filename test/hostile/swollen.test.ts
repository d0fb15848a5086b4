// Files that are small or large and wrong in a great many places: refused in a few lines, in little memory.
import { copyFileSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { emptyFolder, READABLE, runWith } from "../cli/command.js";
import { tinyMap } from "../run/tiny-map.js";

const MOST = 512; // MiB a process may ever hold
const LINES = 51; // fifty problems and how many more there are

async function refused(...words: string[]): Promise<string> {
  const peaks = join(emptyFolder(), "peaks");
  const around = { preload: "test/nightly/peak.mjs", environment: { GAINSCAPE_PEAKS: peaks } };
  const { code, stdout, stderr } = await runWith(around, ...words);
  expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
  expect(stderr).toMatch(READABLE);
  expect(stderr.trimEnd().split("\n").length).toBeLessThanOrEqual(LINES);
  expect(Math.max(...readFileSync(peaks, "utf8").trim().split("\n").map(Number)) / 1024).toBeLessThan(MOST);
  return stderr;
}

const written = (name: string, content: string): string => {
  const file = join(emptyFolder(), name);
  writeFileSync(file, content);
  return file;
};

describe("a map of some 40 MB", () => {
  let intact = "";
  beforeAll(async () => {
    intact = canonicalJson(await tinyMap());
  });

  const MIB = 2 ** 20;
  const row = `[${"0.123456,".repeat(1023)}0]`;
  const distinct = (count: number) => Array.from({ length: count }, (_, at) => `{"a${at.toString(36)}":1}`).join();

  it.each([
    [
      "millions of wrong values where verdicts belong",
      () => filled(`[${`${row},`.repeat(4300)}${row}]`),
      /verdict\[0\]\[0\]: expected one of/,
    ],
    ["millions of lists", () => filled(`[${"[],".repeat(40 * (MIB / 3))}[]]`), /more than 1500000 lists and groups/],
    ["millions of groups", () => filled(`[${"{},".repeat(40 * (MIB / 3))}{}]`), /more than 1500000 lists and groups/],
    [
      "a million groups, each with a key of its own",
      () => filled(`[${distinct(1_000_000)}]`),
      /more than 16384 different keys/,
    ],
    ["millions of numbers", () => filled(`[${"1,".repeat(20 * MIB)}1]`), /more than 6000000 values/],
    ["millions of texts", () => filled(`[${'"a",'.repeat(10 * MIB)}""]`), /more than 1000000 texts/],
    ["a text that never ends", () => `"${"\\\\".repeat(20 * MIB)}`, /not JSON/],
    [
      "a grid of a million lines",
      () => intact.replace(/"d":\[[^\]]*\]/g, `"d":[${Array.from({ length: 1_000_000 }, (_, at) => at).join()}]`),
      /grid\.roll\.d: 1000000 items, expected at most 1024/,
    ],
  ] as const)("with %s is refused", async (_, content, message) => {
    const file = written("map.json", content());
    expect(await refused("compare", file, file, "--out", emptyFolder())).toMatch(message);
  });

  /** The table of verdicts replaced. */
  function filled(table: string): string {
    const changed = intact.replace(/"verdict":\[\[.*?\]\]/, () => `"verdict":${table}`);
    if (changed === intact) throw new Error("no verdicts in the map");
    return changed;
  }
});

describe("250 KB of YAML with a fault at every byte or line", () => {
  const SIZE = 250_000; // bytes
  const all = (unit: string) => unit.repeat(Math.floor(SIZE / unit.length));
  const braces = all("}\n");

  it.each([
    ["closing braces", braces],
    ["keys given twice", all("a: 1\n")],
    ["unknown keys", Array.from({ length: 30_000 }, (_, at) => `k${at}: 1\n`).join("")],
  ])("%s: check", async (_, text) => {
    const file = written("broken.yaml", text);
    await refused("check", file, file);
  });

  it("gate", async () => void (await refused("gate", written("broken.yaml", braces))));

  it("a sweep one of whose scripts it is", async () => {
    const home = emptyFolder();
    const [sweep, model] = [join(home, "sweep.yaml"), join(home, "model.yaml")];
    writeFileSync(join(home, "broken.yaml"), braces);
    const shipped = readFileSync("test/fixtures/quick.yaml", "utf8");
    writeFileSync(sweep, shipped.replace(/^scripts:\n(?: .*\n)*/m, "scripts: [{ use: ./broken.yaml }]\n"));
    copyFileSync("models/sandpiper-r1.yaml", model);
    expect(await refused("sweep", sweep, "--model", model)).toContain("broken.yaml:1:1");
  });
});
