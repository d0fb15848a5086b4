// Every kind of file given wherever another one belongs: one line that says what it is and what was expected.
import { readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { canonicalJson, lineJson } from "../../src/base/canonical.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { readJson } from "../../src/files/json.js";
import { encodeTexts } from "../../src/flow/cached-texts.js";
import { checkFile } from "../../src/flow/check.js";
import { compare } from "../../src/flow/compare.js";
import { drawsHead } from "../../src/flow/draw-shares.js";
import { readDraws, writeDraws } from "../../src/flow/draws-file.js";
import { openScript, readAirframe, readSweep } from "../../src/flow/read.js";
import { readFlightFile } from "../../src/flow/read-flight.js";
import { readFullMap, readMap } from "../../src/flow/read-map.js";
import { readShard, writeShard } from "../../src/flow/shard-file.js";
import { gatherShards, shardHead } from "../../src/flow/shards.js";
import { renderCsv, renderDriftMarkdown, renderJunit, renderPage } from "../../src/report/index.js";
import { emptyFolder } from "../cli/command.js";
import { complaintsOf, laterComplaintsOf } from "../fixtures/complaints.js";
import { SMALL_FLIGHT } from "../fixtures/small-flight.js";
import { changed } from "../fixtures/small-model.js";
import { tinyMap } from "../run/tiny-map.js";
import { tinyPlan } from "../run/tiny-plan.js";

const plan = tinyPlan();
const map = await tinyMap();
const { drift } = compare({ name: "a", map }, { name: "b", map }, { command: "c" });
const page = await renderPage(map);

/** What is given: its name on disk, what it holds (null: written by hand below), and what it is called. */
const GIVEN: Readonly<Record<string, readonly [name: string, content: string | Uint8Array | null, called: string]>> = {
  model: ["model.yaml", readFileSync("models/sandpiper-r1.yaml"), "a model"],
  sweep: ["sweep.yaml", readFileSync("sweeps/first-tune.yaml"), "a sweep"],
  flight: ["flight.yaml", SMALL_FLIGHT, "a flight"],
  script: ["script.yaml", readFileSync("sweeps/scripts/nudge.yaml"), "a script"],
  map: ["map.json", canonicalJson(map), "a stability map"],
  baseline: ["baseline.json", lineJson(baselineOf(map)), "a baseline"],
  drift: ["drift.json", lineJson(drift), "what a comparison found"],
  shard: ["shard-1-of-2.trials", null, "a shard"],
  draws: ["shard-1-of-2.draws", null, "a share of draws"],
  schema: ["schema.json", readFileSync("models/schema/airframe-1.schema.json"), "a schema for editors"],
  table: ["points.csv", renderCsv(map), "a table"],
  page: ["index.html", page, "a page"],
  results: ["junit.xml", renderJunit([drift]), "test results"],
  summary: ["summary.md", renderDriftMarkdown(drift), "a summary"],
  kept: ["kept.texts", encodeTexts("5".repeat(64), { page: "<p>" }), "a file of the cache"],
};

const READERS: Readonly<Record<string, readonly [read: (file: string) => unknown, takes: readonly string[]]>> = {
  "where a model belongs": [readAirframe, ["model"]],
  "where a sweep belongs": [readSweep, ["sweep"]],
  "where a script belongs": [openScript, ["script"]],
  "where a flight belongs": [readFlightFile, ["flight"]],
  "to check": [checkFile, ["model", "sweep", "script", "flight"]],
  "where a map or baseline belongs": [readMap, ["map", "baseline"]],
  "where a whole map belongs": [readFullMap, ["map", "baseline"]],
  "where a shard belongs": [readShard, ["shard"]],
  "where a share of draws belongs": [readDraws, ["draws"]],
  "where a folder of shards belongs": [(file) => gatherShards([file]), []],
};

let home = "";
beforeEach(() => {
  home = emptyFolder();
});

function written(kind: string): string {
  const [name, content] = GIVEN[kind] ?? ["", ""];
  const file = join(home, name);
  const share = [{ name: "sweep", sweep: "s.yaml", model: "m.yaml" }, [plan], { index: 1, of: 2 }] as const;
  if (content !== null) writeFileSync(file, content);
  else if (kind === "draws") writeDraws(file, drawsHead(...share), [null]);
  else writeShard(file, shardHead(...share), []);
  return file;
}

describe.each(Object.entries(READERS))("%s", (_, [read, takes]) => {
  it.each(Object.keys(GIVEN).filter((kind) => !takes.includes(kind)))("a %s is named in one line", async (kind) => {
    const file = written(kind);
    const [line = "", ...others] = await laterComplaintsOf(() => read(file));
    expect(others).toEqual([]);
    expect(line.startsWith(`${file}: this is ${GIVEN[kind]?.[2]}`), line).toBe(true);
    expect(line).toMatch(/; expected a /);
  });
});

it("a script's place that names a model says so at the line that names it", () => {
  const file = join(home, "sweep.yaml");
  const text = readFileSync("test/fixtures/quick.yaml", "utf8");
  const model = resolve("models/sandpiper-r1.yaml");
  writeFileSync(file, text.replace(/^scripts:\n(?: .*\n)*/m, `scripts: [{ use: ${model} }]\n`));
  const [line = "", ...others] = complaintsOf(() => readSweep(file));
  expect(others).toEqual([]);
  expect(line).toBe(`${file}:10:18 scripts[0].use: ${model}: this is a model; expected a script (gainscape.script/1)`);
});

describe("a file of another program", () => {
  it("is said to be no JSON, and only what begins like it may have been cut short", () => {
    const file = join(home, "map.json");
    writeFileSync(file, "a cake: [flour, eggs]\n");
    expect(complaintsOf(() => readJson(file))).toEqual([expect.stringMatching(/: not JSON$/)]);
    writeFileSync(file, '{"format": ');
    expect(complaintsOf(() => readMap(file))).toEqual([expect.stringMatching(/was it cut short\?$/)]);
  });
});

describe("check looks at every model a sweep names", () => {
  const sweepWith = (baseline: string): string => {
    const file = join(home, "sweep.yaml");
    const text = readFileSync("test/fixtures/quick.yaml", "utf8").replaceAll("../..", resolve("."));
    writeFileSync(file, `${text}baseline:\n  model: ${resolve("models/sandpiper-r1.yaml")}\n${baseline}`);
    return file;
  };

  it("and is content where they are sound", async () => {
    const file = sweepWith(`  candidates: [${resolve("models/sandpiper-r2.yaml")}]\n`);
    expect((await checkFile(file)).is).toMatch(/^sweep quick of Sandpiper r1/);
  });

  it("missing, of another kind, or broken", async () => {
    const broken = join(home, "broken.yaml");
    writeFileSync(broken, readFileSync("models/sandpiper-r2.yaml", "utf8").replace(/^ {2}blades: .*/m, "  blades: 20"));
    const script = resolve("sweeps/scripts/nudge.yaml");
    const file = sweepWith(`  candidates:\n    - gone.yaml\n    - ${script}\n    - ${broken}\n`);
    expect(await laterComplaintsOf(() => checkFile(file))).toEqual([
      expect.stringMatching(/sweep\.yaml:\d+:7 baseline\.candidates\[0\]: .*gone\.yaml: no such file$/),
      expect.stringMatching(
        /sweep\.yaml:\d+:7 baseline\.candidates\[1\]: .*nudge\.yaml: this is a script; expected a model/,
      ),
      expect.stringMatching(/broken\.yaml:\d+:\d+ propeller\.blades: 20 is out of range/),
    ]);
  });
});

describe("the files a flight names", () => {
  const flightWith = (...changes: readonly (readonly [string, string])[]): string => {
    const file = join(home, "flight.yaml");
    writeFileSync(join(home, "model.yaml"), readFileSync("models/sandpiper-r1.yaml"));
    writeFileSync(file, changed(SMALL_FLIGHT, ...changes));
    return file;
  };

  it("are named with the line that names them where they cannot be read or are of another kind", async () => {
    const complaints = (...changes: readonly (readonly [string, string])[]) =>
      laterComplaintsOf(() => checkFile(flightWith(...changes)));
    expect(await complaints()).toEqual([
      expect.stringMatching(/flight\.yaml:10:9 log\.file: .*log\.csv: no such file/),
    ]);
    expect(await complaints(["model: model.yaml", "model: gone.yaml"])).toEqual([
      expect.stringMatching(/flight\.yaml:4:8 model: .*gone\.yaml: no such file/),
    ]);
    expect(await complaints(["file: log.csv", "file: model.yaml"])).toEqual([
      expect.stringMatching(/flight\.yaml:10:9 log\.file: .*model\.yaml: this is a model; expected a log \(CSV\)$/),
    ]);
    expect(await complaints(["file: log.csv", "file: ."])).toEqual([
      expect.stringMatching(/flight\.yaml:10:9 log\.file: .* is a folder, expected a CSV file$/),
    ]);
    expect(await complaints(["full: 2000, rotor: 2", "full: 2000, rotor: 6"])).toEqual([
      expect.stringMatching(/log\.motor\[1\]\.rotor: Sandpiper r1 has 4 rotors, expected 1 to 4$/),
    ]);
    expect(await complaints(["cells: 4", "cells: 6"])).toEqual([
      expect.stringMatching(
        /pack\.cells: Sandpiper r1 has a pack of 4 cells; a flight with another pack needs its model$/,
      ),
    ]);
  });

  it("may be none: sightings alone are checked with their model", async () => {
    const text = SMALL_FLIGHT.replace(/^log:\n(?: .*\n)*/m, "");
    const file = flightWith();
    writeFileSync(file, text);
    expect(await checkFile(file)).toMatchObject({ kind: "flight", flight: { log: null, sightings: 4, missing: [] } });
  });
});
