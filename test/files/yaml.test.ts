import { describe, expect, test } from "vitest";
import { readYaml } from "../../src/files/yaml.js";
import { complaintsOf } from "../fixtures/complaints.js";

const read = (text: string) => readYaml("f.yaml", text);
const complaints = (text: string) => complaintsOf(() => read(text));

describe("a text as data with places", () => {
  test("values, keys and items know where they stand", () => {
    const { data, place } = read("a: 1\nb:\n  - x\n  - {c: 5 g}\n");
    expect(data).toEqual({ a: 1, b: ["x", { c: "5 g" }] });
    expect(place(["a"])).toEqual({ line: 1, column: 4 });
    expect(place(["a"], "key")).toEqual({ line: 1, column: 1 });
    expect(place(["b", 1, "c"])).toEqual({ line: 4, column: 9 });
    expect(place(["b", 0])).toEqual({ line: 3, column: 5 });
  });

  test("what is absent stands where it would belong", () => {
    const { place } = read("a: 1\nb:\n  - {c: 5 g}\n");
    expect(place(["z"])).toEqual({ line: 1, column: 1 });
    expect(place(["b", 0, "d"])).toEqual({ line: 3, column: 5 });
    expect(place(["b", 7, "d"])).toEqual({ line: 2, column: 1 });
  });

  test("anchors stand for what they name", () => {
    const { data, place } = read("a: &one {m: 1 g}\nb: *one\n");
    expect(data).toEqual({ a: { m: "1 g" }, b: { m: "1 g" } });
    expect(place(["b", "m"])).toEqual({ line: 1, column: 13 });
  });

  test("yes, no, on, off and dates are plain texts, as YAML 1.2 has it", () => {
    expect(read("[yes, no, on, off, 2026-11-01, 0x10, true, ~]").data).toEqual([
      "yes",
      "no",
      "on",
      "off",
      "2026-11-01",
      16,
      true,
      null,
    ]);
  });

  test("Windows line ends and a byte order mark change nothing", () => {
    expect(read("\ufeffa: 1\r\nb: 2\r\n").data).toEqual({ a: 1, b: 2 });
    expect(read("a: 1\r\nb: 2\r\n").place(["b"])).toEqual({ line: 2, column: 4 });
  });

  test("a group has no prototype a key could reach", () => {
    const { data } = read("__proto__: {polluted: 1}\n");
    expect(Object.keys(data as object)).toEqual(["__proto__"]);
    expect("polluted" in {}).toBe(false);
  });
});

describe("what is no YAML that can be read", () => {
  test.each([
    [
      "a: [1, 2",
      "f.yaml:1:9: not YAML that can be read: Flow sequence in block collection must be sufficiently indented and end with a ]",
    ],
    ["a:\n\tb: 1", "f.yaml:2:1: indented by a tab, expected spaces"],
    ["a: b: c", "f.yaml:1:4: not YAML that can be read: Nested mappings are not allowed in compact mappings"],
    ["a: 1\n---\nb: 2", "f.yaml:2:1: more than one document in the file"],
    ["? [a, b]\n: 1", "f.yaml:1:3: a key that is not a plain text"],
    ["a: !thing 3", "f.yaml:1:4: not YAML that can be read: Unresolved tag: !thing"],
    ["a: !!binary aGVsbG8=", "f.yaml:1:13 a: an unknown tag"],
    ["a: *gone", 'f.yaml:1:4 a: no anchor "gone" before this alias'],
    ["a: \u0000", "f.yaml:1:4: not YAML: it holds a control character"],
  ])("%j", (text, line) => {
    expect(complaints(text)[0]).toBe(line);
  });

  test("one tab is one line, whatever it upsets around it, and many are one as well", () => {
    const after = "z:\n  - a\n";
    expect(complaints(`frame:\n  mass: 1\n\tx: 3\n  y: 4\n${after}`)).toEqual([
      "f.yaml:3:1: indented by a tab, expected spaces",
    ]);
    expect(complaints(`a: [1,\n\t2]\n${after}`)).toEqual(["f.yaml:2:1: indented by a tab, expected spaces"]);
    expect(complaints(`frame:\n  mass: 1\n\tx: 3\n  y: 4\n${after}\t- b\n`)).toEqual([
      "f.yaml:3:1: indented by a tab, expected spaces, and so is another line",
    ]);
  });

  test("a key given twice, in every group that does it", () => {
    expect(complaints("a: 1\nb: {c: 1, c: 2}\na: 3\n")).toEqual([
      "f.yaml:2:11 b.c: key given twice",
      "f.yaml:3:1 a: key given twice",
    ]);
  });
});

describe("texts made to hurt", () => {
  const nine = (item: string) => `[${Array.from({ length: 9 }, () => item).join(", ")}]`;
  const bomb = `a: &a ${nine("x")}\nb: &b ${nine("*a")}\nc: &c ${nine("*b")}\nd: &d ${nine("*c")}\ne: ${nine("*d")}\n`;
  const deep = "nested more than 32 levels deep";
  const stairs = (step: (indent: string) => string) =>
    Array.from({ length: 400 }, (_, i) => step(" ".repeat(i))).join("\n");

  test.each([
    ["aliases of aliases", bomb, "f.yaml:3:8: more than 100 aliases"],
    ["an anchor inside itself", "a: &a [*a]", `f.yaml:1:7: ${deep}`],
    ["brackets", "[".repeat(200_000), `f.yaml:1:33: ${deep}`],
    ["groups in groups", "{a: ".repeat(60_000), `f.yaml:1:129: ${deep}`],
    ["list marks on one line", `${"- ".repeat(120_000)}a`, `f.yaml:1:65: ${deep}`],
    ["key marks on one line", `${"? ".repeat(120_000)}a`, `f.yaml:1:65: ${deep}`],
    ["stairs of keys", stairs((indent) => `${indent}a:`), `f.yaml:34:34: ${deep}`],
    ["stairs of lists", stairs((indent) => `${indent}-`), `f.yaml:34:34: ${deep}`],
    ["a list without end", `[${"1,".repeat(100_000)}]`, "f.yaml:1:100000: more than 50000 values"],
  ])("%s", (_, text, line) => {
    expect(complaints(text)).toEqual([line]);
  });

  test("of thousands of double keys the first fifty are reported", () => {
    const lines = complaints("a: 1\n".repeat(40_000));
    expect(lines).toHaveLength(51);
    expect(lines[0]).toBe("f.yaml:2:1 a: key given twice");
    expect(lines[50]).toBe("and at least 39949 more problems");
  });
});
