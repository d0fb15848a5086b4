import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, expect, test } from "vitest";
import { moduleDigest } from "../../src/files/module-digest.js";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gainscape-modules-"));
  for (const [name, text] of Object.entries(FILES)) put(name, text);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const FILES = {
  "run/task.js":
    'import { advance } from "../kernel/loop.js";\nimport fs from "node:fs";\nexport * from "./answer.js";',
  "run/answer.js": 'import "../run/task.js";',
  "kernel/loop.js": 'export const later = () => import("./later.js");',
  "kernel/later.js": "export const x = 1;",
  "kernel/vector-4.wasm": "bytecode",
  "kernel/loop.d.ts": "export declare const later: unknown;",
  "run/pool.js": 'import "./task.js";',
};

function put(name: string, text: string): void {
  mkdirSync(join(folder, name, ".."), { recursive: true });
  writeFileSync(join(folder, name), text);
}

const digest = (root = folder): string => moduleDigest(pathToFileURL(join(root, "run/task.js")));

test.each(["run/task.js", "run/answer.js", "kernel/loop.js", "kernel/later.js", "kernel/vector-4.wasm"])(
  "%s counts",
  (name) => {
    const before = digest();
    put(name, `${FILES[name as keyof typeof FILES]} `);
    expect(digest()).not.toBe(before);
  },
);

test("a further bytecode file counts, declarations and modules that are not loaded do not", () => {
  const before = digest();
  put("run/pool.js", "changed");
  put("kernel/loop.d.ts", "changed");
  expect(digest()).toBe(before);
  put("kernel/vector-5.wasm", "more");
  expect(digest()).not.toBe(before);
});

test("the folder it stands in does not count", () => {
  const other = mkdtempSync(join(tmpdir(), "gainscape-modules-"));
  cpSync(folder, other, { recursive: true });
  expect(digest(other)).toBe(digest());
  rmSync(other, { recursive: true });
});

test("the digest of the trials' own code reaches loop, readers and elementary functions, as built and from source", () => {
  for (const [entry, ending] of [
    ["dist/run/task.js", ".js"],
    ["src/run/task.ts", ".ts"],
  ] as const) {
    const home = mkdtempSync(join(tmpdir(), "gainscape-modules-"));
    const root = entry.split("/")[0] as string;
    cpSync(root, join(home, root), { recursive: true });
    const built = () => moduleDigest(pathToFileURL(join(home, entry)));
    const digest = built();
    expect(digest).toBe(moduleDigest(pathToFileURL(entry)));
    for (const module of ["kernel/loop", "kernel/wash", "response/swing", "base/elementary", "run/question"]) {
      const file = join(home, root, `${module}${ending}`);
      const text = readFileSync(file, "utf8");
      writeFileSync(file, `${text}// changed`);
      expect([module, built() === digest]).toEqual([module, false]);
      writeFileSync(file, text);
    }
    expect(built()).toBe(digest);
    rmSync(home, { recursive: true });
  }
});
