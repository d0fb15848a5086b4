// Runs the passes of passes.ts over a trace: plain code here, the vector kernel for several traces at once. Both give the
// same bits.
import { energies, kick, ring, swing, wobble } from "./passes.js";
import * as s from "./sums.js";

const PASSES = { swing, kick, wobble, energies, ring };
export type PassName = keyof typeof PASSES;

/** One pass with its arguments: the same for all trials of a variant. */
export interface Pass {
  readonly name: PassName;
  /** The memory all trials share, where the pass has one. */
  readonly shared: Float64Array | null;
  /** Its arguments, in the first places of sums.ts. */
  readonly given: readonly number[];
  /** Its counts, in order. */
  readonly counts: readonly number[];
}

export interface Reader {
  /** Carries out a pass over the trace; what it leaves stays until the next trial. */
  carryOut(pass: Pass): void;
  /** What lies at a place of sums.ts. */
  sum(place: number): number;
}

/** A trace and its reader. */
export interface Traced {
  readonly trace: Float64Array; // rad/s
  readonly reader: Reader;
}

export function traceOf(trace: Float64Array): Traced {
  const sums = new Float64Array(s.SUMS_SIZE);
  return {
    trace,
    reader: {
      carryOut({ name, shared, given, counts }) {
        sums.set(given);
        const pass = PASSES[name] as (...values: (Float64Array | number)[]) => void;
        pass(...(shared === null ? [] : [shared]), sums, trace, ...counts);
      },
      sum: (place) => sums[place],
    },
  };
}

/** HALF_LENGTH, SPREAD and COUNT of so many samples. */
export const lengths = (count: number): readonly [half: number, spread: number, count: number] => [
  0.5 * (count - 1),
  (count * (count * count - 1)) / 12,
  count,
];
