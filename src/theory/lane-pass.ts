// The pass over the frequencies of an open loop, for several sets of gains at once. Like the kernel's loop it is the only
// description of what it does: the translator makes vector instructions of it, and it keeps to the same dialect.
import type { Index, UniformMemory, Varying, VaryingMemory } from "../base/lane-numbers.js";
import * as m from "./lane-memory.js";

/**
 * Marks the steps between frequencies in which a response passes the real axis or the unit circle. It is the sum of `count`
 * complex pieces, each times its factor among `lanes`; `pieces` has their real and imaginary parts, frequency after frequency,
 * in `blocks` of so many `rounds`: ROUNDS, which stays a count so that the translated pass stays short.
 */
export function marks(pieces: UniformMemory, lanes: VaryingMemory, count: Index, blocks: Index, rounds: Index): void {
  let firstRe: Varying = 0;
  let firstIm: Varying = 0;
  for (let n: Index = 0; n < count; n++) {
    firstRe += lanes[m.FACTORS + n] * pieces[2 * n];
    firstIm += lanes[m.FACTORS + n] * pieces[2 * n + 1];
  }
  let below: Varying = firstIm < 0 ? 1 : 0;
  let inside: Varying = firstRe * firstRe + firstIm * firstIm < 1 ? 1 : 0;
  for (let block: Index = 0; block < blocks; block++) {
    let axis: Varying = 0;
    let circle: Varying = 0;
    for (let round: Index = 0; round < rounds; round++) {
      const from: Index = 2 * count * (m.BLOCK * block + m.STEPS * round + 1);
      for (let step: Index = 0; step < m.STEPS; step++) {
        let re: Varying = 0;
        let im: Varying = 0;
        for (let n: Index = 0; n < count; n++) {
          re += lanes[m.FACTORS + n] * pieces[from + 2 * count * step + 2 * n];
          im += lanes[m.FACTORS + n] * pieces[from + 2 * count * step + 2 * n + 1];
        }
        const nowBelow: Varying = im < 0 ? 1 : 0;
        const nowInside: Varying = re * re + im * im < 1 ? 1 : 0;
        axis = axis + axis + (nowBelow === below ? 0 : 1);
        circle = circle + circle + (nowInside === inside ? 0 : 1);
        below = nowBelow;
        inside = nowInside;
      }
    }
    lanes[m.MARKS + 2 * block] = axis;
    lanes[m.MARKS + 2 * block + 1] = circle;
  }
}
