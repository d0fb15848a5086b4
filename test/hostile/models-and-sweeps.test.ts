// Extreme models, sweeps and scripts, through the command line.
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { cut, cuts, edited, edits, triedSlowly } from "./cases.js";
import { commandLine } from "./outcome.js";

let home = "";
let before: string[] = [];
const below = (folder: string) => readdirSync(folder, { recursive: true, encoding: "utf8" }).sort();

beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), "gainscape-hostile-"));
  for (const folder of ["models", "sweeps"]) cpSync(folder, join(home, folder), { recursive: true });
  for (const target of Object.values(TARGETS)) writeFileSync(join(home, target.file), "");
  before = below(home);
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const TARGETS = {
  model: { from: "models/sandpiper-r1.yaml", file: "models/hostile.yaml" },
  "sweep, planned with its model": { from: "sweeps/propeller-change.yaml", file: "sweeps/hostile.yaml" },
  script: { from: "sweeps/scripts/wash-turn.yaml", file: "sweeps/scripts/hostile.yaml" },
};

describe.each(Object.entries(TARGETS))("a %s", (_, { from, file }) => {
  const text = readFileSync(from, "utf8");
  const tree = parse(text);

  const checked = async (content: string | Uint8Array) => {
    writeFileSync(join(home, file), content);
    await commandLine("check", join(home, file));
  };

  it("whose values are hostile is used or refused", () =>
    triedSlowly(0.12, edits, (list) => checked(JSON.stringify(edited(tree, list)) ?? "")));

  it("whose text is hostile is used or refused", () => triedSlowly(0.12, cuts, (list) => checked(cut(text, list))));

  it("of any bytes is refused", () => triedSlowly(0.04, fc.uint8Array({ maxLength: 400 }), checked));
});

it("none of them wrote a file, into its folder or above it", () => {
  expect(below(home)).toEqual(before);
});

describe("words on the command line", () => {
  const words = fc.array(
    fc.oneof(
      fc.constantFrom("sweep", "check", "compare", "gate", "merge", "cache", "report", "baseline", "card", "--help"),
      fc.constantFrom(
        "--workers",
        "--shard",
        "--out",
        "--model",
        "--json",
        "--quiet",
        "--no-cache",
        "--cache-limit",
        "--",
      ),
      fc.constantFrom("nowhere.yaml", "0", "1e9", "-1", "2/4", "__proto__", "\u001b[31m", "=1+1", "\u0000"),
      fc.string({ maxLength: 12 }),
    ),
    { maxLength: 6 },
  );

  it("in any order are a usage fault, bad input or help", () =>
    // A cache of its own, so that --clear touches no other.
    triedSlowly(0.2, words, async (list) => {
      process.env.XDG_CACHE_HOME = home;
      await commandLine(...list);
    }));
});
