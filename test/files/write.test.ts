import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { probeFolder } from "../../src/files/probe.js";
import { NotWritten, writeAtomically } from "../../src/files/write.js";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gainscape-write-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("writing whole", () => {
  test("makes the folders, replaces what was there, leaves nothing else", () => {
    const path = join(folder, "deep", "er", "map.json");
    writeAtomically(path, "first");
    writeAtomically(path, new TextEncoder().encode("second"));
    expect(readFileSync(path, "utf8")).toBe("second");
    expect(readdirSync(join(folder, "deep", "er"))).toEqual(["map.json"]);
  });

  test("a write that fails leaves the old file and no part of the new one", () => {
    const path = join(folder, "taken");
    mkdirSync(path);
    expect(() => writeAtomically(path, "text")).toThrow();
    expect(readdirSync(folder)).toEqual(["taken"]);
  });

  test("takes away what a killed run left of the same file, and leaves what another run is writing", () => {
    const left = [".map.json.0123ab.part", ".map.json.4567cd.part", ".points.csv.89abef.part"];
    for (const name of left) writeFileSync(join(folder, name), "half");
    for (const name of [left[0], left[2]]) utimesSync(join(folder, name), 1e9, 1e9);
    writeAtomically(join(folder, "map.json"), "text");
    expect(readdirSync(folder).sort()).toEqual([left[1], left[2], "map.json"]);
  });

  test("a folder that has become a file meanwhile is reported as a file not written", () => {
    writeFileSync(join(folder, "out"), "in the way");
    expect(() => writeAtomically(join(folder, "out", "map.json"), "text")).toThrow(NotWritten);
    expect(readFileSync(join(folder, "out"), "utf8")).toBe("in the way");
  });
});

describe("asking before the long work", () => {
  test("a folder that is there, and one that could be made, are fine and stay unmade", () => {
    expect(probeFolder(folder)).toBeNull();
    expect(probeFolder(join(folder, "a", "b"))).toBeNull();
    expect(existsSync(join(folder, "a"))).toBe(false);
  });

  test("a file in the way is reported with the wanted folder", () => {
    writeFileSync(join(folder, "f"), "x");
    expect(probeFolder(join(folder, "f"))).toMatchObject({
      file: join(folder, "f"),
      message: `cannot be written into: ${folder}/f is a file, expected a folder`,
    });
    expect(probeFolder(join(folder, "f", "g"))).toMatchObject({
      file: join(folder, "f", "g"),
      message: `cannot be written into: ${folder}/f is a file, expected a folder`,
    });
  });

  test.skipIf(process.getuid?.() === 0)("a folder that may not be written into", () => {
    chmodSync(folder, 0o500);
    expect(probeFolder(join(folder, "a"))).toMatchObject({ message: "cannot be written into: permission denied" });
    chmodSync(folder, 0o700);
  });

  test("a name the system does not take", () => {
    const path = join(folder, "x".repeat(300));
    expect(probeFolder(path)).toMatchObject({ file: path, message: "cannot be written into: ENAMETOOLONG" });
  });
});

describe("room for the files", () => {
  test("comes from the file system, also for a folder that is not there yet", () => {
    expect(probeFolder(join(folder, "a", "b"), { bytes: 1 })).toBeNull();
    expect(probeFolder(join(folder, "a", "b"), { bytes: 2 ** 80 })).toMatchObject({
      message: expect.stringMatching(
        /^cannot be written into: [\d.]+ MiB are free, the files take about [\d.e+]+ MiB$/,
      ),
    });
  });
});
