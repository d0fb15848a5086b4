// A chain of filter stages of order 2 at most, in transposed direct form.
import type { Index, UniformMemory, Varying, VaryingMemory } from "../base/lane-numbers.js";
import * as m from "./memory.js";

/** What `value` has become behind stages whose coefficients stand in `table` from `first` on, two numbers of `state` each from `memory` on. */
export function throughStages(
  table: UniformMemory,
  state: VaryingMemory,
  value: Varying,
  first: Index,
  memory: Index,
  stages: Index,
): Varying {
  let y: Varying = value;
  for (let s: Index = 0; s < stages; s++) {
    const c: Index = first + s * m.STAGE_WIDTH;
    const z: Index = memory + s * 2;
    const x: Varying = y;
    y = table[c] * x + state[z];
    state[z] = table[c + 1] * x - table[c + 3] * y + state[z + 1];
    state[z + 1] = table[c + 2] * x - table[c + 4] * y;
  }
  return y;
}
