import { describe, expect, test } from "vitest";
import { nearest, suggestion } from "../../src/base/nearest.js";
import { fileProblem, InputError, Problems, pathText, printable, problemLine } from "../../src/base/problem.js";

describe("a problem on one line", () => {
  test("file, line, column, path, message", () => {
    const problem = {
      file: "models/x.yaml",
      line: 14,
      column: 9,
      path: "propeller.diameter",
      message: 'expected a length (try "5.1 in")',
    };
    expect(problemLine(problem)).toBe('models/x.yaml:14:9 propeller.diameter: expected a length (try "5.1 in")');
    expect(problemLine(fileProblem("models/x.yaml", "no such file"))).toBe("models/x.yaml: no such file");
  });

  test("a message that quotes a whole file is cut, also where each of its characters takes eight", () => {
    for (const text of ["x", "\u202e"])
      expect(problemLine(fileProblem("f", `found ${text.repeat(100_000)}`))).toMatch(/^f: found .{394}\.\.\.$/);
  });

  test("a path reads as in a file", () => {
    expect(pathText(["rotors", 2, "at", 0])).toBe("rotors[2].at[0]");
    expect(pathText([])).toBe("");
    expect(pathText(["x".repeat(100)])).toHaveLength(60);
  });

  test("nothing in it can act on a terminal or turn the line around", () => {
    expect(printable("a\u001b[2Jb\r\nc\u202ed\u2028e\u0007")).toBe(
      "a\\u{1b}[2Jb\\u{d}\\u{a}c\\u{202e}d\\u{2028}e\\u{7}",
    );
    expect(printable("Löffler 5.1 in ° µ")).toBe("Löffler 5.1 in ° µ");
  });
});

describe("many problems", () => {
  const at = (file: string, line: number, column = 1) => ({ file, line, column, path: "", message: "m" });

  test("stand by line within their file, files in the order they came", () => {
    const { problems } = new InputError([at("b", 9), at("a", 5), at("b", 2), at("b", 2, 0), at("a", 1)]);
    expect(problems.map((p) => `${p.file}${p.line}.${p.column}`)).toEqual(["b2.0", "b2.1", "b9.1", "a1.1", "a5.1"]);
  });

  test("are collected from many files without keeping more than fifty", () => {
    const problems = new Problems();
    expect(problems.attempt(() => 3)).toBe(3);
    problems.throwIfAny();
    const many = new InputError(Array.from({ length: 120_000 }, (_, line) => at("a", line + 1)));
    for (let file = 0; file < 3; file++)
      problems.attempt(() => {
        throw many;
      });
    expect(() => problems.throwIfAny()).toThrow(/\nand at least 359950 more problems$/);
  });

  test("the first fifty are reported, the rest counted", () => {
    const error = new InputError(Array.from({ length: 60 }, (_, line) => at("a", line + 1)));
    expect(error.problems).toHaveLength(50);
    expect(error.more).toBe(10);
    expect(error.message.split("\n")).toHaveLength(51);
    expect(error.message.endsWith("and at least 10 more problems")).toBe(true);
  });
});

describe("the word that was meant", () => {
  const words = ["diameter", "blades", "inertia", "p", "i", "d"];
  test.each([
    ["diametre", "diameter"],
    ["Diameter", "diameter"],
    ["dimeter", "diameter"],
    ["blads", "blades"],
    ["blaeds", "blades"],
    ["P", "p"],
    ["k", null],
    ["colour", null],
    ["x".repeat(1000), null],
  ])("%s", (word, meant) => {
    expect(nearest(word, words)).toBe(meant);
  });

  test("is not guessed where two are equally near: the wrong spin is worse than none", () => {
    expect(nearest("cww", ["cw", "ccw"])).toBe(null);
    expect(nearest("ccv", ["cw", "ccw"])).toBe("ccw");
  });

  test("far from all, the known words are listed, unless that is too long to read", () => {
    expect(suggestion("colour", ["mass", "at"])).toBe(" (expected one of: mass, at)");
    expect(
      suggestion(
        "colour",
        Array.from({ length: 17 }, (_, i) => `k${i}`),
      ),
    ).toBe("");
  });
});
