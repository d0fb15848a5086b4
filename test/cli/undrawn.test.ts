// A fault in the drawing, done to the real command line: what was simulated or compared is saved, whatever else can be
// drawn is drawn, one line says what is missing, and the command ends as a bug.
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { emptyFolder, FILES, runCached, runWith } from "./command.js";

const GLANCE = "test/fixtures/glance.yaml";
const home = mkdtempSync(join(tmpdir(), "gainscape-undrawn-"));
const complete = join(home, "whole");
const cache = join(home, "cache");
const environment = { XDG_CACHE_HOME: cache };
const injured = (at: string) => ({
  environment: { ...environment, SABOTAGE: "undrawn", SABOTAGE_AT: at },
  preload: "test/cli/sabotage.mjs",
});
const PAGES = "charts/view"; // every page with a map in it
const CARD = "report/card/card";

beforeAll(async () => {
  expect((await runCached(cache, "sweep", GLANCE, "--out", complete, "--quiet")).code).toBe(0);
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** Every file of a folder is the one of an unbroken run. */
function expectWhole(folder: string, files: readonly string[]): void {
  expect(readdirSync(folder).sort()).toEqual([...files].sort());
  for (const file of files)
    expect(readFileSync(join(folder, file)).equals(readFileSync(join(complete, file))), file).toBe(true);
}

const lineOf = (missing: string, map: string) =>
  `gainscape has a bug: sabotaged; ${missing} is not drawn. The map is in ${map}: gainscape report ${map} draws it again.\n`;

describe("a page that cannot be drawn", () => {
  it("costs a sweep that page alone; report draws it later", async () => {
    const out = emptyFolder();
    writeFileSync(join(out, "index.html"), "of another map");
    // Without a cache: a cached page would not have to be drawn.
    const words = ["sweep", GLANCE, "--out", out, "--no-cache"];
    const { code, stdout, stderr } = await runWith(injured(PAGES), ...words, "--json");
    expect({ code, stderr }).toEqual({ code: 70, stderr: lineOf(join(out, "index.html"), join(out, "map.json")) });
    expect(Object.keys(JSON.parse(stdout).files)).toEqual(["card", "map", "points"]);
    expectWhole(out, ["card.html", "map.json", "points.csv"]);
    expect((await runCached(cache, "report", out, "--quiet")).code).toBe(0);
    expectWhole(out, FILES);
  });

  it("costs a merge no more", async () => {
    const [shards, out] = [emptyFolder(), emptyFolder()];
    expect((await runCached(cache, "sweep", GLANCE, "--shard", "1/1", "--out", shards, "--quiet")).code).toBe(0);
    const { code, stderr } = await runWith(injured(PAGES), "merge", shards, "--out", out, "--no-cache", "--quiet");
    expect({ code, stderr }).toEqual({ code: 70, stderr: lineOf(join(out, "index.html"), join(out, "map.json")) });
    expectWhole(out, ["card.html", "map.json", "points.csv"]);
  });

  it("leaves a comparison its numbers, JUnit and summary", async () => {
    const out = emptyFolder();
    writeFileSync(join(out, "index.html"), "of another comparison");
    const { code, stdout, stderr } = await runWith(injured(PAGES), "compare", complete, complete, "--out", out);
    const saved = `The comparison is in ${join(out, "drift.json")}`;
    const line = `gainscape has a bug: sabotaged; ${join(out, "index.html")} is not drawn. ${saved}.\n`;
    expect({ code, stderr }).toEqual({ code: 70, stderr: line });
    expect(stdout).toContain("No regression");
    expect(readdirSync(out).sort()).toEqual(["drift.json", "junit.xml", "summary.md"]);
  });
});

describe("a card that cannot be drawn", () => {
  it("leaves the map that was simulated for it", async () => {
    const out = emptyFolder();
    const { code, stdout, stderr } = await runWith(
      injured(CARD),
      "card",
      GLANCE,
      "--out",
      out,
      "--no-cache",
      "--quiet",
    );
    const line = lineOf(join(out, "card.html"), join(out, "map.json"));
    expect({ code, stdout, stderr }).toEqual({ code: 70, stdout: "", stderr: line });
    expectWhole(out, ["map.json"]);
  });
});
