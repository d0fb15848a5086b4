// A function of several lines, of the same file or another, is put where it is called: the same bits as by calling it.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import ts from "typescript";
import { afterAll, beforeAll, expect, test } from "vitest";
import { lower } from "../../src/translator/lower.js";
import { printC } from "../../src/translator/print-c.js";
import { readOne } from "../../src/translator/sources.js";
import { inWasm } from "./both-ways.js";

const FILES = {
  "memory.ts": "export const PLACE = 1;",
  "lanes.ts": `export type Varying = number; export type Index = number;
export type VaryingMemory = Float64Array; export type UniformMemory = Float64Array;
export const larger = (a: Varying, b: Varying): Varying => (a > b ? a : b);`,
  "parts.ts": `import { type Index, larger, type UniformMemory, type Varying, type VaryingMemory } from "./lanes.js";
import * as m from "./memory.js";
/** Sets a cell, and returns what comes of the sum with names that its caller has too. */
export function summed(table: UniformMemory, state: VaryingMemory, first: Varying, place: Index, rounds: Index): Varying {
  let sum: Varying = first;
  for (let k: Index = 0; k < rounds; k++) {
    const here: Varying = table[place + k] * sum;
    sum += larger(here, 0.5);
  }
  state[m.PLACE] = sum;
  return sum * state[m.PLACE];
}
export function doubled(state: VaryingMemory, place: Index): void {
  state[place] = state[place] * 2;
}`,
  "loop.ts": `import type { Index, UniformMemory, Varying, VaryingMemory } from "./lanes.js";
import { doubled, summed } from "./parts.js";
export function advance(craft: UniformMemory, state: VaryingMemory, trace: VaryingMemory, rounds: Index, to: Index): void {
  let sum: Varying = state[0];
  for (let k: Index = 0; k < to; k++) {
    const here: Varying = summed(craft, state, sum, 0, rounds);
    sum = summed(craft, state, here - trace[k], 1, 2);
    doubled(state, 0);
    trace[k] = sum;
  }
}`,
};

let folder = "";
const at = (name: string) => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "gainscape-inline-"));
  for (const [name, text] of Object.entries(FILES)) {
    writeFileSync(at(name), text);
    const options = { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2023 };
    writeFileSync(at(name.replace(/ts$/, "js")), ts.transpileModule(text, { compilerOptions: options }).outputText);
  }
  writeFileSync(at("package.json"), '{"type": "module"}');
});
afterAll(() => rmSync(folder, { recursive: true }));

test("in WebAssembly what it does in JavaScript, twice in one function", async () => {
  const { advance } = await import(pathToFileURL(at("loop.js")).href);
  const craft = [0.25, -1.5, 0.75];
  const rows = Array.from({ length: 4 }, (_, lane) => ({ state: [0.3 + lane, -2], trace: [lane, 0.1 * lane, -lane] }));
  const wanted = rows.map((row) => {
    const [state, trace] = [Float64Array.from(row.state), Float64Array.from(row.trace)];
    advance(Float64Array.from(craft), state, trace, 2, 3);
    return { state: [...state], trace: [...trace] };
  });
  const settings = { name: "advance", counts: { rounds: 2 }, pairs: 2, interleave: 1, segmentSize: 4 };
  const given = { craft, states: rows.map(({ state }) => state), traces: rows.map(({ trace }) => trace) };
  expect(inWasm(lower(readOne(at("loop.ts"), "advance"), settings), given, [3])).toEqual(wanted);
  expect(wanted[1]?.trace[2]).not.toBe(0);
});

test("its names are unlike all others, and one-line functions of other files come along", () => {
  const text = printC(readOne(at("loop.ts"), "advance"));
  expect(text).toMatch(/double summed1_sum = sum;[\s\S]*double summed2_sum = summed2_first;/);
  expect(text).toContain("static inline double larger(double a, double b)");
});

test.each([
  ["summed(craft, state, sum, 0)", "`summed(craft, state, sum, 0)`: takes 5 values"],
  ["summed(state, state, sum, 0, 1)", "`state`: expected a UniformMemory"],
  ["summed(craft, state, rounds, 0, 1)", "`rounds`: a Index value does not fit a Varying"],
  ["doubled(state, 0)", "`doubled(state, 0)`: returns nothing"],
  ["1 + summed(craft, state, sum, 0, 1)", "only one-line functions can be called within an expression"],
])("%s is refused", (call, message) => {
  writeFileSync(at("wrong.ts"), FILES["loop.ts"].replace("summed(craft, state, sum, 0, rounds)", call));
  expect(() => readOne(at("wrong.ts"), "advance")).toThrow(message);
});
