// Chains of filter stages of order 2 at most: fixed ones in transposed direct form, moving ones as state-variable filters.
// Stage by stage for all axes together, which share its coefficients.
import type { Index, UniformMemory, Varying, VaryingMemory } from "../base/lane-numbers.js";
import * as m from "./memory.js";

/**
 * Takes the values of the axes `from` to `to` (exclusive), which stand at `values` of `state`, through stages whose coefficients stand
 * in `table` from `first` on. Each has two numbers per axis from `memory` on, of `axes` axes.
 */
export function throughStages(
  table: UniformMemory,
  state: VaryingMemory,
  values: Index,
  from: Index,
  to: Index,
  axes: Index,
  first: Index,
  memory: Index,
  stages: Index,
): void {
  for (let s: Index = 0; s < stages; s++) {
    const c: Index = first + s * m.STAGE_WIDTH;
    for (let a: Index = from; a < to; a++) {
      const z: Index = memory + s * axes * 2 + a * 2;
      const x: Varying = state[values + a];
      const y: Varying = table[c] * x + state[z];
      state[z] = table[c + 1] * x - table[c + 3] * y + state[z + 1];
      state[z + 1] = table[c + 2] * x - table[c + 4] * y;
      state[values + a] = y;
    }
  }
}

/**
 * As above, for stages whose coefficients move from one control period to the next (moving-stages.ts). Each is two integrators in a
 * loop, dx/dt = [-damping -1; 1 0] x tuning, by the trapezoidal rule: whatever tuning and damping do, the sum of the squares of
 * both memories falls by 4 tuning damping v^2 a period, so no movement can make it grow; and a steady input rests in the second
 * memory for any coefficients, so it passes unmoved. The transposed direct form has neither.
 */
export function throughMovingStages(
  table: UniformMemory,
  state: VaryingMemory,
  values: Index,
  from: Index,
  to: Index,
  axes: Index,
  first: Index,
  memory: Index,
  stages: Index,
): void {
  for (let s: Index = 0; s < stages; s++) {
    const c: Index = first + s * m.MOVING_WIDTH;
    for (let a: Index = from; a < to; a++) {
      const z: Index = memory + s * axes * 2 + a * 2;
      const band: Varying = state[z];
      const middle: Varying =
        table[c + m.BAND_BY_GAP] * (state[values + a] - state[z + 1]) + table[c + m.BAND_LEFT] * band;
      const half: Varying = middle - band;
      const rise: Varying = table[c + m.TUNING] * middle;
      const low: Varying = state[z + 1] + rise;
      state[z] = middle + half;
      state[z + 1] = low + rise;
      state[values + a] = low + table[c + m.OUTSIDE] * half;
    }
  }
}
