// What is shipped: one module for each number of rotors, of one shape, with a function for each axis under test and kind of
// segment, and one for each pass over the traces.
import { lower } from "./lower.js";
import type { Program } from "./tree.js";
import { moduleOf } from "./wasm.js";

/** Pairs of trials simulated at once. Four hide each other's latency; with fewer it shows, with more registers run out. */
const PAIRS = 4;
/** Two interleaved pairs load the uniform numbers once for both and still fit 16 vector registers. */
const INTERLEAVE = 2;
/** Operations to a segment, give or take a loop's round; flat between 30 and 60. */
const SEGMENT_SIZE = 45;

export const LANES = 2 * PAIRS;

/** Kinds of segments and the loop's counts in them, as in kernel/segments.ts. */
const STRETCHES = {
  still: { disturbed: 0, accumulate: 0 },
  disturbed: { disturbed: 1, accumulate: 0 },
  accumulated: { disturbed: 1, accumulate: 1 },
} as const;

/** `passes` by name. */
export function kernelModule(
  program: Program,
  passes: ReadonlyMap<string, Program>,
  rotors: number,
  coupled: 0 | 1,
): Uint8Array {
  const shared = { pairs: PAIRS, interleave: INTERLEAVE, segmentSize: SEGMENT_SIZE };
  const loops = [0, 1].flatMap((axis) =>
    Object.entries(STRETCHES).map(([kind, reckoned]) =>
      lower(program, { ...shared, name: `${kind}_${axis}`, counts: { rotors, axis, coupled, ...reckoned } }),
    ),
  );
  return moduleOf([...loops, ...[...passes].map(([name, pass]) => lower(pass, { ...shared, name, counts: {} }))]);
}
