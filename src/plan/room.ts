// How much of the margins wanted of a hold its gains leave, over every level and condition.
import type { AxisGains } from "../airframe/airframe.js";
import { marginsOf } from "../theory/margins.js";
import type { LoopPieces } from "../theory/pieces.js";

// Ogata, Modern Control Engineering: over 6 dB and 30 to 60 deg (from memory). The lower end: a hold is weak on purpose, and
// 45 deg would put D into that of shipped craft, a twelfth of the step. The margins of the sweep's safe region are
// independent of it: they change no trial.
const GAIN = 6; // dB, up and down
const PHASE = 30; // deg

export const MARGINS_TEXT = `${GAIN} dB and ${PHASE} deg`;

/**
 * The least share of the wanted margins that is left in any of the loops: 1 where all have them, 0 where one is unstable.
 * A share below `enough` need not be the least.
 */
export function roomOf(loops: readonly LoopPieces[], gains: AxisGains, enough = 0): number {
  let room = Number.POSITIVE_INFINITY;
  for (const loop of loops) {
    const { gainUp, gainDown, phase } = marginsOf(loop, gains);
    const share = (margin: number | null, required: number) => (margin ?? Number.POSITIVE_INFINITY) / required;
    room = Math.min(room, share(gainUp, GAIN), share(gainDown, GAIN), share(phase, PHASE));
    if (room < enough || room === 0) break;
  }
  return room;
}
