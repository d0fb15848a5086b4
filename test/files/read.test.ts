import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readDocument } from "../../src/files/read.js";
import { complaintsOf } from "../fixtures/complaints.js";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "gainscape-read-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const file = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};
const complaints = (path: string) => complaintsOf(() => readDocument(path));

test("a file is read and named as the user named it", () => {
  const path = file("good.yaml", "a: 1\n");
  expect(readDocument(path)).toMatchObject({ file: path, data: { a: 1 } });
});

test("a missing file, with the nearest one of its folder", () => {
  file("sandpiper-r1.yaml", "a: 1");
  expect(complaints(join(folder, "sandpipr-r1.yaml"))).toEqual([
    `${folder}/sandpipr-r1.yaml: no such file (did you mean "sandpiper-r1.yaml"?)`,
  ]);
  expect(complaints("no/such/folder/x.yaml")).toEqual(["no/such/folder/x.yaml: no such file"]);
  expect(complaints(join(folder, "good.yaml", "x.yaml"))).toEqual([`${folder}/good.yaml/x.yaml: no such file`]);
});

test("a folder", () => {
  expect(complaints(folder)).toEqual([`${folder}: is a folder, expected a YAML file`]);
});

test("a device, which could be read for ever", () => {
  expect(complaints("/dev/zero")).toEqual(["/dev/zero: is not a regular file, expected a YAML file"]);
});

test("a file too large to have been written by hand", () => {
  expect(complaints(file("big.yaml", "a".repeat(300 * 1024)))).toEqual([
    `${folder}/big.yaml: 300 KiB, at most 256 KiB can be read`,
  ]);
});

test("bytes that are no text", () => {
  expect(complaints(file("binary.yaml", new Uint8Array([0x61, 0xff, 0xfe, 0x00])))).toEqual([
    `${folder}/binary.yaml: not a text file (UTF-8 expected)`,
  ]);
});

test("a path with control characters cannot act on a terminal", () => {
  expect(complaints("no\u001b[31m.yaml")).toEqual(["no\\u{1b}[31m.yaml: no such file"]);
  expect(complaints("no\u0000.yaml")).toHaveLength(1);
});
