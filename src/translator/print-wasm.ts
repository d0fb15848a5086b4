// WebAssembly instructions in words, a line for each, loops set in: those that wasm.ts writes and no others.
import { type Code, drop, f64x2, i32, select, v128 } from "./wasm.js";

/** Instructions without anything behind their opcode, by their bytes. */
const PLAIN: ReadonlyMap<string, string> = new Map([
  ...named("i32.", i32),
  ...named("f64x2.", f64x2),
  ...named("v128.", { and: v128.and, andNot: v128.andNot, bitselect: v128.bitselect }),
  ...named("", { drop, select }),
]);

/** Opcodes of loads and stores: name, bytes behind the offset. */
const ACCESS: Readonly<Record<number, readonly [name: string, behind: 0 | 1]>> = {
  0: ["v128.load", 0],
  11: ["v128.store", 0],
  10: ["v128.loadBoth", 0],
  93: ["v128.loadHalf", 0],
  87: ["v128.loadOther", 1],
  91: ["v128.storeHalf", 1],
};
const LOCAL: Readonly<Record<number, string>> = { 32: "get", 33: "set", 34: "tee" };
const [SIMD, INTEGER, BLOCK, LOOP, END, BRANCH_IF, VECTOR_CONSTANT] = [0xfd, 0x41, 0x02, 0x03, 0x0b, 0x0d, 12];

function named(type: string, table: Readonly<Record<string, Code>>): (readonly [bytes: string, name: string])[] {
  return Object.entries(table).map(([name, code]) => [code.join(), `${type}${name}`]);
}

/** Throws RangeError on bytes that wasm.ts never writes. */
export function printCode(code: Code): string[] {
  const reader = new Reader(code);
  const lines: string[] = [];
  let depth = 0;
  while (!reader.atEnd) {
    const line = instruction(reader);
    if (line === "end") depth--;
    lines.push(`${"  ".repeat(depth)}${line}`);
    if (line === "block" || line === "loop") depth++;
  }
  return lines;
}

function instruction(reader: Reader): string {
  const opcode = reader.byte();
  const local = LOCAL[opcode];
  if (local !== undefined) return `${local} ${reader.unsigned()}`;
  if (opcode === SIMD) return vectorInstruction(reader);
  if (opcode === INTEGER) return `i32.constant ${reader.signed()}`;
  if (opcode === BRANCH_IF) return `branch ${reader.unsigned()} if`;
  if (opcode === END) return "end";
  if (opcode === BLOCK || opcode === LOOP) {
    reader.byte(); // no result
    return opcode === BLOCK ? "block" : "loop";
  }
  return plain([opcode]);
}

function vectorInstruction(reader: Reader): string {
  const from = reader.at - 1;
  const opcode = reader.unsigned();
  if (opcode === VECTOR_CONSTANT) {
    const value = reader.double();
    reader.double(); // the same in the other half
    return `v128.constant ${Object.is(value, -0) ? "-0" : value}`;
  }
  const access = ACCESS[opcode];
  if (access === undefined) return plain(reader.since(from));
  reader.byte(); // alignment
  const offset = reader.unsigned();
  return `${access[0]}${access[1] === 1 ? ` ${reader.byte()}` : ""} at ${offset}`;
}

function plain(bytes: Code): string {
  const found = PLAIN.get(bytes.join());
  if (found === undefined) throw new RangeError(`not an instruction of ours: ${bytes.join(" ")}`);
  return found;
}

class Reader {
  at = 0;
  constructor(private readonly code: Code) {}

  get atEnd(): boolean {
    return this.at >= this.code.length;
  }

  byte(): number {
    const found = this.code[this.at++];
    if (found === undefined) throw new RangeError("the code ends within an instruction");
    return found;
  }

  since(from: number): Code {
    return this.code.slice(from, this.at);
  }

  /** LEB128. */
  unsigned(): number {
    let value = 0;
    for (let scale = 1; ; scale *= 128) {
      const byte = this.byte();
      value += (byte % 128) * scale;
      if (byte < 128) return value;
    }
  }

  signed(): number {
    let value = 0;
    for (let scale = 1; ; scale *= 128) {
      const byte = this.byte();
      value += (byte % 128) * scale;
      if (byte < 128) return byte >= 64 ? value - scale * 128 : value;
    }
  }

  double(): number {
    const bytes = Uint8Array.from({ length: 8 }, () => this.byte());
    return new Float64Array(bytes.buffer)[0] ?? Number.NaN;
  }
}
