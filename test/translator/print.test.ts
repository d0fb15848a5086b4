// The stages of a translation as --print shows them: true to the bytes, and refused in one line.
import { spawnSync } from "node:child_process";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lower } from "../../src/translator/lower.js";
import { printCode } from "../../src/translator/print-wasm.js";
import { readOne, readSources } from "../../src/translator/sources.js";
import { translationStages } from "../../src/translator/stages.js";
import { drop, f64x2, get, i32, integer, loop, select, set, tee, v128 } from "../../src/translator/wasm.js";
import { inWasm } from "./both-ways.js";
import { smooth } from "./smooth.js";

const EXAMPLE = "test/translator/smooth.ts";
const build = (...words: string[]) =>
  spawnSync(process.execPath, ["dist/translator/build.js", ...words], { encoding: "utf8" });

describe("instructions in words", () => {
  // Numbers of one, two and three bytes, and below zero: core specification 2.0, section 5.2.2.
  test.each([
    [
      [...get(0), ...set(127), ...tee(128)],
      ["get 0", "set 127", "tee 128"],
    ],
    [[...integer(0), ...integer(63), ...integer(64), ...integer(-1)], [0, 63, 64, -1].map((n) => `i32.constant ${n}`)],
    [
      [...integer(70_000), ...integer(-70_000)],
      ["i32.constant 70000", "i32.constant -70000"],
    ],
    [
      [...v128.load(20_000), ...v128.store(16)],
      ["v128.load at 20000", "v128.store at 16"],
    ],
    [
      [...v128.loadHalf(8), ...v128.loadOther(300)],
      ["v128.loadHalf at 8", "v128.loadOther 1 at 300"],
    ],
    [
      [...v128.storeHalf(0, 8), ...v128.storeHalf(1, 8)],
      ["v128.storeHalf 0 at 8", "v128.storeHalf 1 at 8"],
    ],
    [
      [...v128.constant(-0), ...v128.constant(0.1)],
      ["v128.constant -0", "v128.constant 0.1"],
    ],
    [
      [...f64x2.negate, ...v128.bitselect, ...drop, ...select],
      ["f64x2.negate", "v128.bitselect", "drop", "select"],
    ],
  ])("%j", (code, lines) => {
    expect(printCode(code)).toEqual(lines);
  });

  test("a loop is set in", () => {
    expect(printCode(loop(3, integer(0), get(4), i32.add)).map((line) => line.trimEnd())).toEqual(
      [
        ["i32.constant 0", "set 3", "block"],
        ["  get 3", "  get 4", "  i32.less", "  i32.isZero", "  branch 0 if", "  loop"],
        ["    i32.add", "    get 3", "    i32.constant 1", "    i32.add", "    tee 3", "    get 4", "    i32.less"],
        ["    branch 0 if", "  end", "end"],
      ].flat(),
    );
  });

  test("everything that is shipped can be printed", () => {
    const { loop: advance, passes } = readSources("src");
    const shared = { name: "printed", pairs: 4, interleave: 2, segmentSize: 45 };
    const counts = { rotors: 4, axis: 0, extended: 1, coupled: 1, disturbed: 1, accumulate: 1 };
    const bodies = [
      lower(advance, { ...shared, counts }).body,
      ...[...passes.values()].map((pass) => lower(pass, { ...shared, counts: {} }).body),
    ];
    for (const body of bodies) {
      const lines = printCode(body).map((line) => line.trim());
      const opened = lines.filter((line) => line === "block" || line === "loop").length;
      expect(lines.filter((line) => line === "end").length).toBe(opened);
    }
  });

  test("what wasm.ts never writes is refused", () => {
    expect(() => printCode([0x00])).toThrow("not an instruction of ours: 0");
    expect(() => printCode([0x20])).toThrow("the code ends within an instruction");
  });
});

describe("the example of src/translator/README.md", () => {
  const program = readOne(EXAMPLE, "smooth");

  test("does in WebAssembly what it does as written", () => {
    const samples = fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { minLength: 3, maxLength: 3 });
    const lanes = fc.array(samples, { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(lanes, (traces) => {
        const rows = { craft: [1, 3], states: traces.map(() => [0.5, -2]), traces, counts: { stages: 2, to: 3 } };
        const wanted = traces.map((values) => {
          const [state, trace] = [Float64Array.of(0.5, -2), Float64Array.from(values)];
          smooth(Float64Array.of(1, 3), state, trace, 2, 3);
          return { state: [...state], trace: [...trace] };
        });
        expect(
          inWasm(
            lower(program, { name: "advance", counts: { stages: 2 }, pairs: 2, interleave: 1, segmentSize: 45 }),
            rows,
            [3],
          ),
        ).toEqual(wanted);
      }),
      { seed: 1, numRuns: 20 },
    );
  });

  test("names what is known at build time and keeps open what is not", () => {
    const text = (counts: Record<string, number>) => translationStages(program, counts).map((stage) => stage.text);
    const [, twice] = text({ stages: 2 });
    expect(twice.match(/^ {2}y = cell \d$/gm)).toEqual(["  y = cell 0", "  y = cell 1"]);
    const [, open] = text({});
    expect(open).toContain("repeat local 7 from 0 below (get 4)");
    expect(open).toContain("state[(get 7)] = (state[(get 7)] + (share * (y - state[(get 7)])))");
  });
});

describe("build.js --print", () => {
  test("prints every stage", () => {
    const { status, stdout, stderr } = build("--print", EXAMPLE, "smooth", "stages=1");
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const wanted = translationStages(readOne(EXAMPLE, "smooth"), { stages: 1 });
    expect(stdout).toBe(wanted.map(({ title, text }) => `== ${title}\n${text}\n\n`).join(""));
  });

  test.each([
    [["src/kernel/loop.ts", "nowhere"], /^src\/kernel\/loop\.ts:3:1 .* has no function nowhere to translate\n$/],
    [["src/kernel/loop.ts", "advance"], /^lanes can only be chosen by an index known at build time\n$/],
    [[EXAMPLE, "smooth", "stages"], /^stages is no count; usage: .*\n$/],
    [[EXAMPLE], /^usage: .*\n$/],
    [["src/nowhere.ts", "advance"], /^ENOENT.*\n$/],
  ])("%j is refused", (words, message) => {
    const { status, stdout, stderr } = build("--print", ...words);
    expect({ status, stdout }).toEqual({ status: 1, stdout: "" });
    expect(stderr).toMatch(message);
  });
});
