// The words of what the translator reads: numbers, places and memories of trials simulated side by side (see translator/README.md).

/** A number of which every lane has its own. */
export type Varying = number;
/** A number all lanes share. */
export type Uniform = number;
/** A place in memory or a count. */
export type Index = number;
export type VaryingMemory = Float64Array;
export type UniformMemory = Float64Array;

export const minimum = (a: Varying, b: Varying): Varying => (a < b ? a : b);
export const maximum = (a: Varying, b: Varying): Varying => (a > b ? a : b);
