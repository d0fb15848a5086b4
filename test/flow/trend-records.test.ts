import { spawn } from "node:child_process";
import { once } from "node:events";
import { appendFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { InputError, problemLine } from "../../src/base/problem.js";
import { appendLine } from "../../src/files/append.js";
import { problemLines, trendsIn } from "../../src/flow/trend.js";
import { checkRecordPlace, readRecords, recordFile } from "../../src/flow/trend-records.js";
import type { TrendRecord } from "../../src/trend/format.js";
import { record } from "../trend/records.js";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "gainscape-trend-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const file = (): string => join(folder, "dunlin.jsonl");
const written = (...lines: readonly (TrendRecord | string)[]): string => {
  const texts = lines.map((line) => (typeof line === "string" ? line : canonicalJson(line)));
  writeFileSync(file(), `${texts.join("\n")}\n`);
  return file();
};
const refused = async (work: Promise<unknown>): Promise<string> => {
  const error = await work.then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(InputError);
  return (error as Error).message.replaceAll(folder, "");
};

describe("a line that is no record", () => {
  const good = [record(), record({ date: "2026-01-02" })] as const;
  const changed = canonicalJson(record({ date: "2026-01-03" })).replace('"p":10', '"p":11');
  it.each([
    [
      "cut short",
      canonicalJson(good[0]).slice(0, 200),
      /:2:\d+: not a record: JSON that cannot be read; was it cut short\?/,
    ],
    ["no JSON", "hello", /:2:\d+: not a record/],
    ["a number", "7", /:2:1: expected a group of keys, found 7/],
    ["changed by hand", changed, /:2:\d+ seal: broken, the record was changed after it was written/],
    [
      "of a later format",
      canonicalJson(good[0]).replace("trend/1", "trend/9"),
      /:2:\d+ format: expected gainscape.trend\/1/,
    ],
    ["without a date", canonicalJson({ ...good[0], date: "soon" }), /:2:\d+ date: expected a day as 2026-11-28/],
    [
      "of another model",
      canonicalJson(record({ name: "Curlew" })),
      /:2:1: a record of "Curlew" in the file of "Dunlin"/,
    ],
  ])("is one problem with its place and costs no other line: %s", async (_, line, message) => {
    const { records, problems } = await readRecords(written(good[0], line, "", good[1]));
    expect(records).toEqual(good);
    expect(problems).toHaveLength(1);
    const text = problems.map(problemLine).join("\n").replace(folder, "");
    expect(text).toMatch(message);
    expect(text.split("\n")).toHaveLength(1);
  });

  it("is pointed at where it is wrong", async () => {
    const { problems } = await readRecords(written(good[0], changed));
    const [{ line, column } = { line: 0, column: 0 }] = problems;
    expect(
      changed.slice(column - 1).startsWith('"') && readFileSync(file(), "utf8").split("\n")[line - 1] === changed,
    ).toBe(true);
    expect(changed.slice(column - 8, column)).toBe('"seal":"'.slice(0, 8));
  });

  it("is counted where there are hundreds", async () => {
    const source = await trendsIn([written(good[0], ...Array.from({ length: 300 }, () => "?"))]);
    for await (const model of source.each()) {
      expect(problemLines(model)).toHaveLength(21);
      expect(problemLines(model).at(-1)).toContain("280 more lines that are no records");
    }
  });
});

describe("the same record twice", () => {
  it("is one, in one file and in two that are read together", async () => {
    written(record(), record(), record({ date: "2026-01-02" }));
    const other = join(folder, "copy.jsonl");
    writeFileSync(other, readFileSync(file()));
    const source = await trendsIn([folder, file()]);
    expect(source.models).toBe(1);
    for await (const { trends } of source.each()) expect(trends.map(({ records }) => records)).toEqual([2]);
  });
});

describe("places", () => {
  it("of models are files of their own, whatever their names", () => {
    const names = ["Dunlin", "dunlin", "DUNLIN", "Dunlin 2", "dunlin-2", "Con", "..", "Dünlin"];
    const files = names.map((name) => recordFile(folder, name).toLowerCase());
    expect(new Set(files).size).toBe(names.length);
    for (const one of files) expect(one.startsWith(folder.toLowerCase())).toBe(true);
    expect(recordFile(folder, "Dunlin")).toBe(file());
    expect(recordFile(join(folder, "mine.jsonl"), "Dunlin")).toBe(join(folder, "mine.jsonl"));
  });

  it("that hold something else are refused before anything is simulated", async () => {
    written(record());
    await checkRecordPlace(folder, ["Dunlin", "Curlew"]);
    expect(await refused(checkRecordPlace(file(), ["Curlew"]))).toContain('holds records of "Dunlin", not of "Curlew"');
    expect(await refused(checkRecordPlace(file(), ["Dunlin", "Curlew"]))).toContain("name a folder");
    expect(await refused(checkRecordPlace("models/sandpiper-r1.yaml", ["Dunlin"]))).toContain("this is a model");
    writeFileSync(file(), "shopping list\n");
    expect(await refused(checkRecordPlace(folder, ["Dunlin"]))).toContain("holds no record that can be read");
  });

  it("without records say so", async () => {
    expect(await refused(trendsIn([folder]))).toContain("holds no records of a trend");
    expect(await refused(trendsIn([file()]))).toContain("no such file");
    writeFileSync(file(), "");
    expect(await refused(trendsIn([folder]))).toContain("holds no record; gainscape record writes them");
    mkdirSync(join(folder, "folder.jsonl"));
    expect(await refused(trendsIn([join(folder, "folder.jsonl")]))).toContain("holds no records");
    expect(await refused(trendsIn(["sweeps/propeller-change.yaml"]))).toContain(
      "this is a sweep; expected records of a trend",
    );
  });
});

describe("adding a line", () => {
  const never = async () => false;

  it("closes one that a killed writer left open, which then costs itself alone", async () => {
    written(record());
    appendFileSync(file(), '{"format":"gainscape.tr');
    expect(await appendLine(file(), canonicalJson(record({ date: "2026-01-02" })), never)).toBe(true);
    const { records, problems } = await readRecords(file());
    expect([records.length, problems.map(({ line }) => line)]).toEqual([2, [2]]);
  });

  it("adds nothing where it is there already", async () => {
    expect(await appendLine(file(), "one", never)).toBe(true);
    expect(await appendLine(file(), "two", async () => true)).toBe(false);
    expect(readFileSync(file(), "utf8")).toBe("one\n");
  });

  it("loses nothing where four processes add at once", async () => {
    const [writers, each] = [4, 25];
    const module = JSON.stringify(resolve("dist/files/append.js"));
    const work = `const { appendLine } = await import(${module});
for (let k = 0; k < ${each}; k++) await appendLine(process.argv[1], process.argv[2] + " " + k + " " + "x".repeat(5000), async () => false);`;
    const children = Array.from({ length: writers }, (_, k) =>
      spawn(process.execPath, ["--input-type=module", "-e", work, file(), `writer ${k}`], { stdio: "inherit" }),
    );
    const codes = await Promise.all(children.map(async (child) => (await once(child, "exit"))[0]));
    expect(codes).toEqual(Array.from({ length: writers }, () => 0));
    const lines = readFileSync(file(), "utf8").trimEnd().split("\n");
    expect(lines.every((line) => /^writer \d \d+ x{5000}$/.test(line))).toBe(true);
    expect(new Set(lines.map((line) => line.slice(0, 12))).size).toBe(writers * each);
  });
});
