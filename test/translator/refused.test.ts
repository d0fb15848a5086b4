// Whatever loop.ts may not hold is refused with its place, and what to write instead.
import { describe, expect, test } from "vitest";
import { readConstants } from "../../src/translator/constants.js";
import { readProgram } from "../../src/translator/program.js";

const around = (body: string): string => `import * as m from "./memory.js";
type Varying = number;
const minimum = (a: Varying, b: Varying): Varying => (a < b ? a : b);
export function advance(craft: UniformMemory, state: VaryingMemory, trace: VaryingMemory, rotors: Index, to: Index): void {
  ${body}
}`;

const read = (text: string) => () => readProgram("loop.ts", text, new Map([["PLACE", 3]]), "advance");

test("what the dialect knows is read", () => {
  const body = "const a: Varying = minimum(state[m.PLACE], craft[rotors * 2]); trace[to] = a;";
  expect(read(around(body))().body).toHaveLength(2);
});

describe("refused in the loop", () => {
  test.each([
    ["while (true) {}", "loop.ts:5:3 `while (true) {}`: only declarations, assignments, counted loops"],
    ["if (state[0] > 1) state[0] = 1;", "`state[0] > 1`: no branch may depend on a Varying or Uniform number"],
    ["if (to > 1) state[0] = 1; else state[0] = 2;", "write a second `if` instead of else"],
    [
      "state[0] = Math.sin(state[1]);",
      "`Math.sin(state[1])`: only one-line functions can be called within an expression",
    ],
    ["state[0] = Math.PI;", "`Math.PI`: only constants of memory.ts"],
    ["state[0] = m.NOWHERE;", "`m.NOWHERE`: only constants of memory.ts"],
    ["state[0] = minimum(state[1]);", "`minimum(state[1])`: takes 2 values"],
    ["state[0] = minimum(to, 1);", "`minimum(to, 1)`: takes Varying or Uniform numbers"],
    ["state[0] = state[1] ** 2;", "`state[1] ** 2`: of the operators + - * / and, on an Index, % are translated"],
    ["state[0] = state[1] % 2;", "`state[1] % 2`: only an Index knows %"],
    ["state[0] = +state[1];", "of the signs before a value only minus is translated"],
    ["state[0] = to * state[1];", "`to * state[1]`: an Index cannot be mixed with a Varying or Uniform number"],
    ["state[to - 1] = 0;", "`to - 1`: an Index knows only + * and %"],
    ["state[state[0]] = 0;", "`state[0]`: a place must be an Index, this is Varying"],
    ["state[state[0] > 0 ? 1 : to] = 0;", "no place may depend on a Varying or Uniform number"],
    ["state[0] = state[1] <= 0 ? 1 : 0;", "`state[1] <= 0`: of the comparisons < > and === are translated"],
    ["state[0] = state[1] ? 1 : 0;", "`state[1]`: only a comparison can be tested"],
    ["state[0] = elsewhere;", "`elsewhere`: not declared here as Varying, Uniform or Index"],
    ["state[0] = air[0];", "`air[0]`: only the memories among the parameters have cells"],
    ["state[0] = [1];", "`[1]`: only arithmetic, memory cells, choices"],
    ["craft[0] = 1;", "`craft[0]`: a UniformMemory is only read"],
    ["const a = 1;", "`a = 1`: declare it with a value, as Varying, Uniform or Index"],
    ["let a: Varying;", "`a: Varying`: declare it with a value"],
    ["let a: Uniform = craft[0];", "a Uniform number never changes: use const"],
    ["const a: Uniform = state[0];", "a Varying value does not fit a Uniform"],
    ["const a: Varying = 1; a = 2;", "`a`: only a memory cell or what was declared with let can be assigned"],
    ["const a: Varying = 1; const a: Varying = 2;", "this name is taken"],
    ["let a: Varying = 1; a /= 2;", "`a /= 2`: assign with = += -= or *="],
    ["state[0];", "`state[0]`: does nothing that can be translated"],
    ["for (let i = 0; i < to; i++) {}", "write for (let i: Index = from; i < below; i++)"],
    ["for (let i: Index = 0; i > to; i++) {}", "write for (let i: Index = from; i < below; i++)"],
    ["for (let i: Index = 0; i < to; i += 2) {}", "write for (let i: Index = from; i < below; i++)"],
    ["for (const x of state) {}", "only declarations, assignments, counted loops"],
  ])("%s", (body, message) => {
    expect(read(around(body))).toThrow(message);
  });
});

describe("refused as well", () => {
  test.each([
    ["class Loop {}", "only functions, imports and types may stand here"],
    ["let count = 0;", "must be a one-line function of lanes"],
    ["const twice = (a: Varying): Varying => { return a + a; };", "must be a one-line function of lanes"],
    ["const twice = (a: Index): Varying => a;", "a one-line function takes lanes"],
    ["export function advance(craft: Float64Array): void {}", "parameters are memories (VaryingMemory, UniformMemory)"],
    [
      "export function advance(to: Index, state: VaryingMemory): void {}",
      "parameters are memories (VaryingMemory, UniformMemory)",
    ],
    ["type Varying = number;", "has no function advance to translate"],
  ])("%s", (text, message) => {
    expect(read(text)).toThrow(message);
  });
});

test("constants are the numbers memory.ts exports", () => {
  const text =
    'export const A = 1; // m\nexport const B = 2;\nexport const far = (s: Shape): number => A + s.rotors;\nconst C = "x";';
  expect([...readConstants("memory.ts", text)]).toEqual([
    ["A", 1],
    ["B", 2],
  ]);
});
