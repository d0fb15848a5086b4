// Whether loops have the margins that are asked for, at many gains: by straight lines between frequencies, or as exact as
// marginsOf, which is then asked wherever the lines come near a limit.
import type { AxisGains } from "../airframe/airframe.js";
import { cos, exp } from "../base/elementary.js";
import { marginsOf } from "./margins.js";
import { type RoughMargins, roughMargins } from "./marks.js";
import type { LoopPieces } from "./pieces.js";

export interface WantedMargins {
  readonly gain: number; // dB, up and down
  readonly phase: number; // rad
}

/** The wanted margins as RoughMargins has them. */
interface Limits {
  readonly below: number;
  readonly above: number;
  readonly nearest: number;
}

function limitsOf({ gain, phase }: WantedMargins): Limits {
  const below = exp((-gain * Math.LN10) / 20);
  return { below, above: 1 / below, nearest: -cos(phase) };
}

const isWithin = (found: RoughMargins, limits: Limits): boolean =>
  found.unstable === 0 && found.below <= limits.below && found.above >= limits.above && found.nearest >= limits.nearest;

/**
 * Per set of gains 1 where every loop is stable and stays so while its gain rises and falls by the wanted factor, and while the wanted phase
 * is lost or gained. Errors of the margins are those of roughMargins.
 */
export function haveMargins(
  loops: readonly LoopPieces[],
  gains: readonly AxisGains[],
  wanted: WantedMargins,
): Uint8Array {
  const limits = limitsOf(wanted);
  return heldByAll(loops, gains, (_, found) => isWithin(found, limits));
}

/** Within steps that bend no further than this straight lines are off by 0.02 of the response's size, which is 0.17 dB. */
const MOST_BEND = 0.16;
/** Nearer to a limit than twice that, marginsOf decides. */
const UNSURE = { gain: 0.4, nearest: 0.04 }; // dB; of the unit circle's radius

/** The same with the margins as marginsOf has them. */
export function keepMargins(
  loops: readonly LoopPieces[],
  gains: readonly AxisGains[],
  wanted: WantedMargins,
): Uint8Array {
  const moved = (share: number): Limits => {
    const limits = limitsOf({ ...wanted, gain: wanted.gain + share * UNSURE.gain });
    return { ...limits, nearest: limits.nearest + share * UNSURE.nearest };
  };
  const [easy, hard] = [moved(-1), moved(1)];
  // A crossing beside -1 may count as an encirclement or not: that is settled where it breaks the easy limits anyway.
  const isSettled = wanted.gain > 2 * UNSURE.gain;
  return heldByAll(loops, gains, (loop, found, one) => {
    const isPlain = isSettled && found.bend <= MOST_BEND;
    if (isPlain && !isWithin(found, easy)) return false;
    return (isPlain && isWithin(found, hard)) || keepsExactly(loop, one, wanted);
  });
}

function keepsExactly(loop: LoopPieces, gains: AxisGains, wanted: WantedMargins): boolean {
  const { stable, gainUp, gainDown, phase } = marginsOf(loop, gains);
  const keeps = (margin: number | null, least: number) => margin === null || margin >= least;
  return (
    stable && keeps(gainUp, wanted.gain) && keeps(gainDown, wanted.gain) && keeps(phase, (180 / Math.PI) * wanted.phase)
  );
}

/** Loop after loop, at the gains that all before it held. */
function heldByAll(
  loops: readonly LoopPieces[],
  gains: readonly AxisGains[],
  holds: (loop: LoopPieces, found: RoughMargins, gains: AxisGains) => boolean,
): Uint8Array {
  const held = new Uint8Array(gains.length).fill(1);
  for (const loop of loops) {
    const open = gains.map((_, at) => at).filter((at) => held[at] === 1);
    if (open.length === 0) break;
    const found = roughMargins(
      loop,
      open.map((at) => gains[at]),
    );
    open.forEach((at, k) => {
      if (!holds(loop, found[k], gains[at])) held[at] = 0;
    });
  }
  return held;
}
