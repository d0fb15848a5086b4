// Does an oscillation die out? One small rule, tested on both sides of each threshold.
import { SCRIPT_KINDS, type ScriptKind } from "../base/script-kinds.js";
import type { Swing } from "./swing.js";

/** Fewer half-cycles than this in the tail is a return, not an oscillation. */
export const FEWEST_HALF_CYCLES = 6;
/** rad/s: half-swings below it (4 deg/s) are the sensor's own noise at work. Ours; no source. */
export const QUIET = (4 * Math.PI) / 180;
/** 1/s: what loses less than a quarter of its width in a second is not dying out. Ours; no source. */
export const SLOWEST_DECAY = -0.3;

/** 1/s: a saturated limit cycle neither grows nor shrinks; 0.02 moves the boundary by less than 0.1 %. */
export const NUDGE_DECAY = -0.02;

/** rad/s: what is left of a nudge below it is rounding, which neither grows nor shrinks. */
export const VANISHED = 1e-7;

/** For a small signal the sign of the growth alone counts: still air, silent sensor, the small-signal limit itself. */
export function isSustained(swing: Swing, kind: ScriptKind): boolean {
  if (swing.halfCycles < FEWEST_HALF_CYCLES) return false;
  if (SCRIPT_KINDS[kind].smallSignal) return swing.amplitude > VANISHED && swing.growth > NUDGE_DECAY;
  return swing.amplitude > QUIET && swing.growth > SLOWEST_DECAY;
}
