// As much of WebAssembly's binary format as the kernel needs (core specification 2.0, chapter 5).

export type Code = readonly number[];

export const I32 = 0x7f;
export const V128 = 0x7b;
const VOID = 0x40;

/** LEB128, unsigned. */
function unsigned(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  do {
    const low = rest % 128;
    rest = Math.floor(rest / 128);
    bytes.push(rest > 0 ? low + 128 : low);
  } while (rest > 0);
  return bytes;
}

/** LEB128, signed, of a 32-bit integer. */
function signed(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  for (;;) {
    const low = rest & 127;
    rest >>= 7;
    if ((rest === 0 && low < 64) || (rest === -1 && low >= 64)) return [...bytes, low];
    bytes.push(low + 128);
  }
}

const simd = (opcode: number): number[] => [0xfd, ...unsigned(opcode)];
const memory = (align: number, offset: number): number[] => [align, ...unsigned(offset)];
const double = (value: number): number[] => [...new Uint8Array(new Float64Array([value]).buffer)];

export const get = (local: number): Code => [0x20, ...unsigned(local)];
export const set = (local: number): Code => [0x21, ...unsigned(local)];
/** Sets and leaves the value on the stack. */
export const tee = (local: number): Code => [0x22, ...unsigned(local)];
export const integer = (value: number): Code => [0x41, ...signed(value)];
export const drop: Code = [0x1a];
export const select: Code = [0x1b];

export const i32 = {
  isZero: [0x45],
  equal: [0x46],
  less: [0x48],
  greater: [0x4a],
  add: [0x6a],
  multiply: [0x6c],
  remainder: [0x70],
  shiftLeft: [0x74],
} as const;

export const v128 = {
  load: (offset: number): Code => [...simd(0x00), ...memory(4, offset)],
  /** One number from memory into both halves. */
  loadBoth: (offset: number): Code => [...simd(0x0a), ...memory(3, offset)],
  store: (offset: number): Code => [...simd(0x0b), ...memory(4, offset)],
  /** The first half from memory, nought in the other. */
  loadHalf: (offset: number): Code => [...simd(0x5d), ...memory(3, offset)],
  /** The second half from memory, the rest from the vector on top of the stack. */
  loadOther: (offset: number): Code => [...simd(0x57), ...memory(3, offset), 1],
  storeHalf: (half: number, offset: number): Code => [...simd(0x5b), ...memory(3, offset), half],
  constant: (value: number): Code => [...simd(0x0c), ...double(value), ...double(value)],
  and: simd(0x4e),
  andNot: simd(0x4f),
  bitselect: simd(0x52),
} as const;

export const f64x2 = {
  equal: simd(0x47),
  less: simd(0x49),
  greater: simd(0x4a),
  negate: simd(0xed),
  add: simd(0xf0),
  subtract: simd(0xf1),
  multiply: simd(0xf2),
  divide: simd(0xf3),
  pmin: simd(0xf6),
  pmax: simd(0xf7),
} as const;

/** for (counter = from; counter < below; counter++) body, tested at the end of each round. */
export const loop = (counter: number, from: Code, below: Code, body: Code): Code => [
  ...from,
  ...set(counter),
  ...[0x02, VOID, ...get(counter), ...below, ...i32.less, ...i32.isZero, 0x0d, 0],
  ...[0x03, VOID, ...body],
  ...get(counter),
  ...integer(1),
  ...i32.add,
  ...tee(counter),
  ...below,
  ...i32.less,
  ...[0x0d, 0],
  ...[0x0b, 0x0b],
];

/** A function of 32-bit integers without result. */
export interface WasmFunction {
  readonly name: string;
  readonly parameters: number;
  readonly locals: readonly number[];
  readonly body: Code;
}

/** A module that imports one memory (env.memory) and exports its functions. */
export function moduleOf(functions: readonly WasmFunction[]): Uint8Array {
  const types = functions.map(({ parameters }) => [0x60, ...vector(Array<Code>(parameters).fill([I32])), 0]);
  const codes = functions.map(({ locals, body }) => vectorOfBytes([...vector(runs(locals)), ...body, 0x0b]));
  return new Uint8Array([
    ...[0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
    ...section(1, types),
    ...section(2, [[...text("env"), ...text("memory"), 2, 0, 0]]),
    ...section(
      3,
      functions.map((_, i) => unsigned(i)),
    ),
    ...section(
      7,
      functions.map(({ name }, i) => [...text(name), 0, ...unsigned(i)]),
    ),
    ...section(10, codes),
  ]);
}

const vector = (items: readonly Code[]): number[] => [...unsigned(items.length), ...items.flat()];
const vectorOfBytes = (bytes: readonly number[]): number[] => [...unsigned(bytes.length), ...bytes];
const text = (value: string): number[] => vectorOfBytes([...new TextEncoder().encode(value)]);
const section = (id: number, items: readonly Code[]): number[] => [id, ...vectorOfBytes(vector(items))];

/** Locals as runs of one type. */
function runs(types: readonly number[]): Code[] {
  const groups: { type: number; count: number }[] = [];
  for (const type of types) {
    const last = groups.at(-1);
    if (last?.type === type) last.count++;
    else groups.push({ type, count: 1 });
  }
  return groups.map(({ type, count }) => [...unsigned(count), type]);
}
