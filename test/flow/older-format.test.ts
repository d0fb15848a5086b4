// A file of another version of its format: one line that names it and the command which makes it anew, exit code 2.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { readSweep } from "../../src/flow/read.js";
import { readFullMap, readMap } from "../../src/flow/read-map.js";
import { complaintsOf } from "../fixtures/complaints.js";
import { commandLine } from "../hostile/outcome.js";

const folder = mkdtempSync(join(tmpdir(), "gainscape-older-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function written(name: string, data: object): string {
  const file = join(folder, name);
  writeFileSync(file, JSON.stringify(data));
  return file;
}

const provenance = { sweep: "sweeps/first tune.yaml" };

describe("a file of an older format", () => {
  it.each([
    ["map", "gainscape sweep 'sweeps/first tune.yaml'"],
    ["baseline", "gainscape baseline 'sweeps/first tune.yaml'"],
  ])("as a %s is refused in one line, whatever else it holds", (word, command) => {
    const format = `gainscape.${word}/1`;
    const file = written("map.json", { format, grid: { p: [1] }, provenance, seal: "0" });
    for (const read of [readMap, readFullMap]) {
      const [line = "", ...more] = complaintsOf(() => read(file, { unsealed: true }));
      expect(more).toEqual([]);
      expect(line).toMatch(/^\S+map\.json\S* format: /);
      expect(line).toContain(`${format} is an older format, which is no longer read; ${command} makes the file anew`);
    }
  });

  it.each([undefined, null, 1, { sweep: 3 }])("names no sweep where it names none: %j", (found) => {
    const file = written("map.json", { format: "gainscape.map/1", provenance: found });
    expect(complaintsOf(() => readMap(file))).toEqual([
      expect.stringMatching(/; gainscape sweep <sweep> makes the file anew$/),
    ]);
  });

  it("as a comparison in the place of a map or a sweep says that compare makes it anew", () => {
    const file = written("drift.json", { format: "gainscape.drift/1" });
    const line = expect.stringMatching(
      /drift\.json: this is what a comparison found \(drift\.json\) \(gainscape\.drift\/1 is an older format.*; gainscape compare makes the file anew\); expected/,
    );
    expect(complaintsOf(() => readMap(file))).toEqual([line]);
    expect(complaintsOf(() => readSweep(file))).toEqual([line]);
  });

  it("ends each command that reads a map with 2", async () => {
    const file = written("map.json", { format: "gainscape.map/1", provenance });
    for (const command of [["report"], ["card"], ["compare", file]])
      expect(await commandLine(...command, file)).toBe(2);
  });
});

describe("a file of a newer format", () => {
  it("asks for a newer program", () => {
    const file = written("map.json", { format: "gainscape.map/12", provenance });
    expect(complaintsOf(() => readMap(file))).toEqual([
      expect.stringMatching(/gainscape\.map\/12 is newer than gainscape\.map\/2/),
    ]);
  });
});
