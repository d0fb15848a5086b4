import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import {
  bytesOf,
  cacheFilePath,
  clearCacheFiles,
  deleteCacheFile,
  evictCacheFiles,
  listCacheFiles,
  readCacheFile,
  writeCacheFile,
} from "../../src/files/cache-files.js";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gainscape-kept-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const key = (digit: string) => digit.repeat(64);
const HOUR = 3_600_000;

/** Sets when a file was used last. */
const usedAt = (path: string, milliseconds: number) => utimesSync(path, milliseconds / 1000, milliseconds / 1000);

function keep(digit: string, bytes: number, used: number): string {
  writeCacheFile(folder, key(digit), new Uint8Array(bytes));
  usedAt(cacheFilePath(folder, key(digit)), used);
  return cacheFilePath(folder, key(digit));
}

describe("files under keys", () => {
  test("come back as they were written; an unknown key is nothing", () => {
    writeCacheFile(folder, key("a"), Uint8Array.of(1, 2, 3));
    expect([...(readCacheFile(folder, key("a")) ?? [])]).toEqual([1, 2, 3]);
    expect(readCacheFile(folder, key("b"))).toBe(null);
    expect(readdirSync(dirname(cacheFilePath(folder, key("a"))))).toEqual([`${"a".repeat(62)}.trials`]);
  });

  test("are gone when dropped, which may be done twice", () => {
    writeCacheFile(folder, key("a"), Uint8Array.of(1));
    deleteCacheFile(folder, key("a"));
    deleteCacheFile(folder, key("a"));
    expect(readCacheFile(folder, key("a"))).toBe(null);
  });

  test("a folder, or nothing at all, where a file should be is nothing", () => {
    mkdirSync(cacheFilePath(folder, key("a")), { recursive: true });
    expect(readCacheFile(folder, key("a"))).toBe(null);
    expect(bytesOf(join(folder, "nowhere"))).toBe(null);
    expect(listCacheFiles(join(folder, "nowhere"))).toEqual([]);
  });

  test("a key leads to no place outside of the folder", () => {
    for (const digit of "0123456789abcdef")
      expect(cacheFilePath(folder, key(digit)).startsWith(`${folder}/`)).toBe(true);
  });
});

describe("a cap", () => {
  test("evicts the least recently used files, down to four fifths", () => {
    const paths = ["1", "2", "3", "4", "5"].map((digit, at) => keep(digit, 100, 1e12 + at * HOUR));
    expect(evictCacheFiles(folder, 500)).toBe(0);
    expect(evictCacheFiles(folder, 499)).toBe(2);
    expect(paths.map((path) => existsSync(path))).toEqual([false, false, true, true, true]);
  });

  test("counts a read as a use", () => {
    const paths = ["1", "2", "3"].map((digit, at) => keep(digit, 100, 1e12 + at * HOUR));
    readCacheFile(folder, key("1"));
    expect(statSync(paths[0]).mtimeMs).toBeGreaterThan(1e12 + 3 * HOUR);
    evictCacheFiles(folder, 299);
    expect(paths.map((path) => existsSync(path))).toEqual([true, false, true]);
  });

  test("removes what killed runs left, and leaves what others are still writing", () => {
    writeCacheFile(folder, key("a"), Uint8Array.of(1));
    const home = dirname(cacheFilePath(folder, key("a")));
    const left = [`.${"a".repeat(62)}.trials.0123ab.part`, `.${"b".repeat(62)}.trials.4567cd.part`];
    for (const name of left) writeFileSync(join(home, name), "half");
    const now = Date.now();
    usedAt(join(home, left[0]), now - 2 * HOUR);
    evictCacheFiles(folder, 1000, now);
    expect(readdirSync(home).sort()).toEqual([left[1], `${"a".repeat(62)}.trials`]);
  });

  test("a clock that was set back or forward only changes the order", () => {
    keep("1", 100, 0);
    const future = keep("2", 100, 4e12);
    evictCacheFiles(folder, 199, 1e12);
    expect(listCacheFiles(folder).map(({ path }) => path)).toEqual([future]);
  });
});

describe("clearing", () => {
  test("deletes cached and unfinished files and no other file", () => {
    keep("1", 10, 1e12);
    keep("2", 10, 1e12);
    const foreign = [join(folder, "notes.txt"), join(folder, "11", "notes.txt"), join(folder, "zz", "1.trials")];
    mkdirSync(join(folder, "zz"));
    for (const path of foreign) writeFileSync(path, "mine");
    writeFileSync(join(folder, "11", `.${"1".repeat(62)}.trials.00.part`), "half");
    expect(clearCacheFiles(folder)).toBe(2);
    expect(listCacheFiles(folder)).toEqual([]);
    expect(foreign.every((path) => existsSync(path))).toBe(true);
    expect(readdirSync(join(folder, "11"))).toEqual(["notes.txt"]);
  });
});
