// What is shipped: for each number of rotors, of one shape, a module with roll and pitch under test and one with yaw, which a page
// need not carry. Each has a function for every axis and kind of segment, and one for each pass over the traces. And one module
// for theory.
import {
  marksFunction,
  NARROW_PAIRS,
  PAIRS,
  PIECE_COUNTS,
  passFunction,
  SEGMENT_COUNTS,
  SEGMENT_KINDS,
  segmentFunction,
} from "../base/vector-layout.js";
import { lower } from "./lower.js";
import type { Program } from "./tree.js";
import { moduleOf } from "./wasm.js";

/** Operations to a segment, give or take a loop's round; 45 and 70 cost 1 to 2 % more, 90 costs 3 % (2026-11-29). */
export const SEGMENT_SIZE = 60;
/** Two interleaved pairs load the uniform numbers once for both and still fit 16 vector registers. */
const WIDE = { pairs: PAIRS, interleave: 2, segmentSize: SEGMENT_SIZE };
/** Uncut: one pair leaves registers enough, and waits for memory between segments (53 ns a control period, cut 64, 2026-11-28). */
const NARROW = { pairs: NARROW_PAIRS, interleave: 1, segmentSize: Number.POSITIVE_INFINITY };

/** What loops are made for, besides each number of rotors: with yaw under test they have all terms. */
export const BUILDS = Object.freeze([
  { coupled: 0, extended: 0, yaw: 0 },
  { coupled: 1, extended: 0, yaw: 0 },
  { coupled: 0, extended: 1, yaw: 0 },
  { coupled: 1, extended: 1, yaw: 0 },
  { coupled: 1, extended: 0, yaw: 1 },
  { coupled: 1, extended: 1, yaw: 1 },
] as const);

/** `passes` by name. */
export function kernelModule(
  program: Program,
  passes: ReadonlyMap<string, Program>,
  {
    yaw,
    ...shape
  }: { readonly rotors: number; readonly coupled: 0 | 1; readonly extended: 0 | 1; readonly yaw: 0 | 1 },
): Uint8Array {
  const absent = shape.extended === 1 ? {} : { dutyBends: 0, movingSensorStages: 0, movingDerivativeStages: 0 };
  const axes = yaw === 1 ? ([2] as const) : ([0, 1] as const);
  const functions = [WIDE, NARROW].flatMap((width) => [
    ...axes.flatMap((axis) =>
      SEGMENT_KINDS.filter((kind) => segmentFunction(kind, axis, width.pairs).startsWith(kind)).map((kind) => {
        const counts = { ...absent, ...shape, axis, ...SEGMENT_COUNTS[kind] };
        return lower(program, { ...width, name: segmentFunction(kind, axis, width.pairs), counts });
      }),
    ),
    ...[...passes].map(([name, pass]) => lower(pass, { ...width, name: passFunction(name, width.pairs), counts: {} })),
  ]);
  return moduleOf(functions);
}

/** Theory's module: its pass for each number of pieces. */
export const theoryModule = (marks: Program): Uint8Array =>
  moduleOf(
    PIECE_COUNTS.map((count) =>
      lower(marks, {
        pairs: PAIRS,
        interleave: 1, // two at once were a fifth slower: little is shared, and more is held
        segmentSize: SEGMENT_SIZE,
        name: marksFunction(count),
        counts: { count },
      }),
    ),
  );
