import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/base/problem.js";
import { readJson } from "../../src/files/json.js";
import { emptyFolder } from "../cli/command.js";

function written(content: string | Uint8Array): string {
  const file = join(emptyFolder(), "map.json");
  writeFileSync(file, content);
  return file;
}

describe("a JSON file", () => {
  it("comes back as plain data, named by path and not by line", () => {
    const document = readJson(written('{"a": [1, null, "\\u00e9{[\\""]}'));
    expect(document.data).toEqual({ a: [1, null, 'é{["'] });
    expect(document.place(["a", 0])).toEqual({ line: 0, column: 0 });
  });

  it.each([
    ["cut short", '{"a": [1, 2', /not JSON that can be read; was it cut short\?/],
    ["with a stray comma", '{\n  "a": 1,\n}', /map\.json:3:1: not JSON/],
    ["empty", "", /not JSON/],
    ["not text", Uint8Array.of(0x7b, 0xff, 0xfe, 0x7d), /not a text file/],
    ["nested without end", "[".repeat(100_000), /nested more than 64 levels/],
    ["nested in groups", `${'{"a":'.repeat(70)}1${"}".repeat(70)}`, /nested more than 64 levels/],
  ])("%s is refused in one line", (_, content, message) => {
    const file = written(content);
    expect(() => readJson(file)).toThrow(InputError);
    expect(() => readJson(file)).toThrow(message);
  });

  it("may hold any number of brackets inside its texts", () => {
    expect(readJson(written(JSON.stringify("[".repeat(1000)))).data).toHaveLength(1000);
  });

  it("that is not there, or is a folder, is refused", () => {
    const folder = emptyFolder();
    expect(() => readJson(join(folder, "none.json"))).toThrow(/none\.json: no such file/);
    expect(() => readJson(folder)).toThrow(/not a regular file/);
  });
});
