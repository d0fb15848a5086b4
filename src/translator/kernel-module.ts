// What is shipped: one module for each number of rotors, with a function for each axis under test, with and without
// tally, of one shape.
import { lower } from "./lower.js";
import type { Program } from "./tree.js";
import { moduleOf } from "./wasm.js";

/** Trials flown side by side. Four pairs hide each other's waiting; with fewer it shows, with more registers run out. */
const PAIRS = 4;
/** Two abreast load the shared numbers once for both and still fit 16 vector registers. */
const ABREAST = 2;
/** Operations to a segment, give or take a loop's round; flat between 30 and 60. */
const ENOUGH = 45;

export const LANES = 2 * PAIRS;

export function kernelModule(program: Program, rotors: number, whole: 0 | 1): Uint8Array {
  const functions = [0, 1].flatMap((axis) =>
    [0, 1].map((tally) =>
      lower(program, {
        name: `advance_${axis}_${tally}`,
        counts: { rotors, axis, tally, whole },
        pairs: PAIRS,
        abreast: ABREAST,
        enough: ENOUGH,
      }),
    ),
  );
  return moduleOf(functions);
}
