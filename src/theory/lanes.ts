// The pass over a loop's frequencies on several sets of gains at once, where the build has translated it, else one after the
// other by its own text: the same marks.
import { DOUBLE, LANES, marksFunction, PAGE, PIECE_COUNTS } from "../base/vector-layout.js";
import * as m from "./lane-memory.js";
import { marks as plainMarks } from "./lane-pass.js";
import { lanesCode } from "./load-lanes.js";

/** A loop's complex pieces as the pass reads them: frequency after frequency, the last repeated to fill the last block. */
export interface LanePieces {
  readonly count: number;
  readonly blocks: number;
  readonly values: Float64Array;
}

/** Sets of gains that are looked at together. */
export { LANES };

/** `lanes` holds places of lane-memory.ts, each with one number per lane: place * LANES + lane. */
export type MarkLanes = (pieces: LanePieces, lanes: Float64Array) => void;

export const lanePlaces = ({ blocks }: LanePieces): number => m.MARKS + 2 * blocks;

/** Lane by lane, as the text is written. */
export const markPlainly: MarkLanes = (pieces, lanes) => {
  const places = lanePlaces(pieces);
  const own = new Float64Array(places);
  for (let lane = 0; lane < LANES; lane++) {
    for (let place = 0; place < m.MARKS; place++) own[place] = lanes[place * LANES + lane];
    plainMarks(pieces.values, own, pieces.count, pieces.blocks, m.ROUNDS);
    for (let place = m.MARKS; place < places; place++) lanes[place * LANES + lane] = own[place];
  }
};

// As much of WebAssembly as is used here: its types come with the browsers' library only.
declare const WebAssembly: {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Memory: new (size: { initial: number }) => { readonly buffer: ArrayBuffer; grow(pages: number): number };
  readonly Instance: new (
    code: object,
    imports: object,
  ) => { readonly exports: Record<string, (...pointersAndCounts: number[]) => void> };
};

/** Null where the machine or the build has none. */
export function translatedMarks(): MarkLanes | null {
  const code = lanesCode();
  if (code === null) return null;
  try {
    return fromCode(code);
  } catch {
    return null;
  }
}

/** Memory: a page of the pass's own, the lanes, the pieces. */
function fromCode(code: Uint8Array): MarkLanes {
  const memory = new WebAssembly.Memory({ initial: 1 });
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(code), { env: { memory } });
  let mounted: LanePieces | null = null;
  let numbers = new Float64Array(memory.buffer);
  return (pieces, lanes) => {
    if (!PIECE_COUNTS.some((count) => count === pieces.count)) return markPlainly(pieces, lanes);
    const [own, given] = [lanePlaces(pieces) * LANES, m.MARKS * LANES];
    const piecesAt = PAGE + DOUBLE * own;
    if (mounted !== pieces) {
      const end = piecesAt + DOUBLE * pieces.values.length;
      if (memory.buffer.byteLength < end) {
        memory.grow(Math.ceil((end - memory.buffer.byteLength) / PAGE));
        numbers = new Float64Array(memory.buffer);
      }
      numbers.set(pieces.values, piecesAt / DOUBLE);
      mounted = pieces;
    }
    for (let i = 0; i < given; i++) numbers[PAGE / DOUBLE + i] = lanes[i];
    exports[marksFunction(pieces.count)](piecesAt, PAGE, 0, pieces.blocks, m.ROUNDS);
    for (let i = given; i < own; i++) lanes[i] = numbers[PAGE / DOUBLE + i];
  };
}
