// A small program of the dialect run twice: as the TypeScript it is, lane by lane, and translated, all lanes at once.
import { runInNewContext } from "node:vm";
import ts from "typescript";
import { lower } from "../../src/translator/lower.js";
import { readProgram } from "../../src/translator/program.js";
import { moduleOf, type WasmFunction } from "../../src/translator/wasm.js";

export const LANES = 4;

const HEAD = `
type Varying = number; type Uniform = number; type Index = number;
type VaryingMemory = Float64Array; type UniformMemory = Float64Array;
const minimum = (a: Varying, b: Varying): Varying => (a < b ? a : b);
const maximum = (a: Varying, b: Varying): Varying => (a > b ? a : b);
const between = (low: Varying, a: Varying, high: Varying): Varying => (a < low ? low : minimum(high, a));
`;

const programText = (body: string, counts: readonly string[]): string => `${HEAD}
export function advance(craft: UniformMemory, state: VaryingMemory, trace: VaryingMemory, ${counts.map((count) => `${count}: Index`).join(", ")}): void {
  ${body}
}`;

export interface Case {
  readonly body: string;
  /** Counts the translation knows. */
  readonly constants?: Readonly<Record<string, number>>;
  /** Counts it learns when it runs. */
  readonly open?: Readonly<Record<string, number>>;
  readonly craft: readonly number[];
  /** One row of state per lane, all of one length. */
  readonly states: readonly (readonly number[])[];
  readonly samples: number;
}

export interface Outcome {
  readonly state: readonly number[];
  readonly trace: readonly number[];
}

export function asWritten({ body, constants = {}, open = {}, craft, states, samples }: Case): Outcome[] {
  const counts = { ...constants, ...open };
  const { outputText } = ts.transpileModule(programText(body, Object.keys(counts)), {
    compilerOptions: { target: ts.ScriptTarget.ES2023, module: ts.ModuleKind.CommonJS },
  });
  const exports: { advance?: (...values: unknown[]) => void } = {};
  runInNewContext(outputText, { exports });
  return states.map((row) => {
    const [state, trace] = [Float64Array.from(row), new Float64Array(samples)];
    exports.advance?.(Float64Array.from(craft), state, trace, ...Object.values(counts));
    return { state: [...state], trace: [...trace] };
  });
}

const PAGE = 65_536;

export function translated(
  { body, constants = {}, open = {}, craft, states, samples }: Case,
  interleave = 1,
  segmentSize = 45,
): Outcome[] {
  const program = readProgram(
    "small.ts",
    programText(body, Object.keys({ ...constants, ...open })),
    new Map(),
    "advance",
  );
  const settings = { name: "advance", counts: constants, pairs: LANES / 2, interleave, segmentSize };
  const traces = states.map(() => Array<number>(samples).fill(0));
  return inWasm(lower(program, settings), { craft, states, traces }, Object.values(open));
}

/** A translated function called "advance" on LANES rows of state and trace, `open` its counts open at build time. */
export function inWasm(
  code: WasmFunction,
  { craft, states, traces }: Pick<Case, "craft" | "states"> & { readonly traces: readonly (readonly number[])[] },
  open: readonly number[],
): Outcome[] {
  const samples = traces[0]?.length ?? 0;
  const memory = new Wasm.Memory({ initial: 4 });
  const { exports } = new Wasm.Instance(new Wasm.Module(moduleOf([code])), { env: { memory } });
  const at = { craft: PAGE, state: 2 * PAGE, trace: 3 * PAGE };
  const doubles = (from: number, length: number) => new Float64Array(memory.buffer, from, length);
  doubles(at.craft, 2 * craft.length).set(craft.flatMap((value) => [value, value]));
  states.forEach((row, lane) => {
    row.forEach((value, place) => {
      doubles(at.state, LANES * row.length)[place * LANES + lane] = value;
    });
    doubles(at.trace + 8 * samples * lane, samples).set(traces[lane] ?? []);
  });
  exports.advance(at.craft, at.state, at.trace, 8 * samples, ...open);
  return states.map((row, lane) => ({
    state: row.map((_, place) => doubles(at.state, LANES * row.length)[place * LANES + lane]),
    trace: [...doubles(at.trace + 8 * samples * lane, samples)],
  }));
}

interface WasmMemory {
  readonly buffer: ArrayBuffer;
}

const { WebAssembly: Wasm } = globalThis as unknown as {
  WebAssembly: {
    readonly Module: new (code: Uint8Array) => object;
    readonly Memory: new (size: { initial: number }) => WasmMemory;
    readonly Instance: new (
      code: object,
      imports: object,
    ) => { readonly exports: Record<string, (...values: number[]) => void> };
  };
};
