import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, test } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { InputError } from "../../src/base/problem.js";
import { readDocument } from "../../src/files/read.js";
import { readYaml } from "../../src/files/yaml.js";
import { parseSweep } from "../../src/sweep/resolve.js";
import { parseScript } from "../../src/sweep/script.js";

// However a file is broken, it is read or refused with problems that have a place; nothing else may be thrown.
const FORMATS = {
  "models/sandpiper-r1.yaml": (file: string, text: string) => parseAirframe(readYaml(file, text)),
  "sweeps/first-tune.yaml": (file: string, text: string) => parseSweep(readYaml(file, text), readDocument),
  "sweeps/scripts/wash-turn.yaml": (file: string, text: string) => parseScript(readYaml(file, text)),
};

function refusedOrRead(act: () => unknown): void {
  try {
    act();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const placeless = error.problems.find(
      (problem) => problem.line < 1 || problem.column < 1 || problem.message === "",
    );
    if (placeless !== undefined) throw new Error(`a problem without a place: ${JSON.stringify(placeless)}`);
  }
}

/** Stretches of a text taken out, doubled, or replaced by what hurts. */
const edits = fc.array(
  fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    length: fc.integer({ min: 0, max: 40 }),
    by: fc.oneof(
      fc.constantFrom(
        "",
        "{",
        "[",
        "]",
        "- ",
        ": ",
        "&a ",
        "*a",
        "!x ",
        "\n",
        "  ",
        "null",
        "-1",
        "1e999",
        "#",
        '"',
        "__proto__: 1\n",
        "<<: *a\n",
        ".nan",
        "0 g",
        "kg",
      ),
      fc.string({ maxLength: 12, unit: "binary" }),
    ),
  }),
  { minLength: 1, maxLength: 4 },
);

describe.each(Object.entries(FORMATS))("%s", (file, parse) => {
  const text = readFileSync(file, "utf8");

  test("edited at random", () => {
    const property = fc.property(edits, (list) => {
      const broken = list.reduce((before, { at, length, by }) => {
        const from = Math.floor(at * before.length);
        return before.slice(0, from) + by + before.slice(from + length);
      }, text);
      refusedOrRead(() => parse(file, broken));
    });
    fc.assert(property, { seed: 20261101, numRuns: 150 });
  });

  test("any value put in place of another", () => {
    const lines = text.split("\n");
    const keyed = lines.flatMap((line, at) => (/^\s*[a-z_]+: \S/.test(line) ? [at] : []));
    const property = fc.property(fc.constantFrom(...keyed), fc.jsonValue({ maxDepth: 3 }), (at, value) => {
      const broken = lines.map((line, k) =>
        k === at ? line.replace(/: .*$/, () => `: ${JSON.stringify(value)}`) : line,
      );
      refusedOrRead(() => parse(file, broken.join("\n")));
    });
    fc.assert(property, { seed: 20261102, numRuns: 150 });
  });
});
