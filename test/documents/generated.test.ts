// Tables in the documents are those of the code; `npm run docs` writes them. And codes in files keep their meaning.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { count } from "../../src/base/fields.js";
import { ABSENCES, VERDICT_LETTERS, VERDICTS } from "../../src/base/measures.js";
import { group } from "../../src/base/shapes.js";
import { EXIT } from "../../src/cli/exit.js";
import { markdownFiles } from "./files.js";
import { generated, print, printed } from "./marks.js";
import { GENERATED, keyTable } from "./tables.js";

describe("tables in the documents", () => {
  it.each(GENERATED.map((one) => [one.name, one.file, one] as const))("%s, in %s", (name, file, { text }) => {
    const wanted = text();
    if (process.env.GAINSCAPE_DOCS === "write") print(file, generated(name), wanted);
    expect(printed(file, generated(name)), "run npm run docs").toBe(wanted);
  });

  it("stand nowhere without somebody who writes them", () => {
    const found = markdownFiles().flatMap((file) =>
      [...readFileSync(file, "utf8").matchAll(/^<!-- generated: (.*) -->$/gm)].map(([, name]) => `${file}: ${name}`),
    );
    expect(found.sort()).toEqual(GENERATED.map(({ file, name }) => `${file}: ${name}`).sort());
  });

  it("say what stands for every key that may be left out", () => {
    const schema = group({ here: count(1, 2).optional(), there: z.strictObject({ deep: count(0, 1) }) });
    expect(() => keyTable(schema, {}, {})).toThrow("say in test/documents/notes.ts what stands for here");
    expect(() => keyTable(schema, { here: "1", gone: "2" }, {})).toThrow("notes on no key: gone");
    expect(keyTable(schema, {}, { here: "1" }).split("\n").slice(2)).toEqual([
      "| `here` | a whole number, 1 to 2 |  | 1 |",
      "| `there` | a group | yes |  |",
      "| `there.deep` | a whole number, 0 to 1 | yes |  |",
    ]);
  });

  it.each(["README.md", "sweeps/guides/comparing.md"])("%s has every exit code and no other", (file) => {
    const [, rows] =
      /^\| (?:exit )?code +\| meaning.*\n\|[- |]+\n((?:\|.*\n)+)/m.exec(readFileSync(file, "utf8")) ?? [];
    const codes = (rows ?? "")
      .trim()
      .split("\n")
      .map((row) => Number(row.split("|")[1]));
    expect(codes).toEqual(Object.values(EXIT));
  });
});

// map.json, baselines and cached trials hold these as numbers and letters: more may be added behind the last, none moves.
describe("codes in files", () => {
  it("of absences stay as they are", () => {
    expect(ABSENCES.slice(0, 8)).toEqual([
      "present",
      "this script does not show it",
      "never settles in the window",
      "no swing to measure",
      "never reaches the level",
      "too few swings to count",
      "the trial diverged",
      "the axis did not move",
    ]);
  });

  it("of verdicts stay as they are", () => {
    expect(VERDICTS).toEqual(["sustained", "hot", "ringing", "loose", "clean"]);
    expect(VERDICT_LETTERS).toEqual({ sustained: "s", hot: "h", ringing: "r", loose: "l", clean: "c" });
  });

  it("of exits stay as they are", () => {
    expect(EXIT).toEqual({ done: 0, regression: 1, input: 2, incomplete: 3, bug: 70 });
  });
});
