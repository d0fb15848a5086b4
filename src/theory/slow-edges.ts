// The slow oscillations on the edge of stability: a short search at low frequencies alone, since most craft have none there.
import type { Craft } from "../airframe/craft.js";
import type { Trim } from "../airframe/powered.js";
import { axisPieces } from "./axis-pieces.js";
import { ultimateGain } from "./boundary.js";
import { controllerPieces } from "./controller.js";
import { sharedGrid } from "./frequency.js";
import { isStable } from "./margins.js";
import { type LoopPieces, loopPieces } from "./pieces.js";
import { type AxisName, type GainsByAxis, plantResponse } from "./plant.js";
import { denserAtNotches } from "./stage-grid.js";

/** SI gains that are swept: every D of the list, P within the range. */
export interface SweptGains {
  readonly d: readonly number[];
  readonly i: number;
  readonly p: { readonly from: number; readonly to: number };
}

const LOWEST = 0.5; // rad/s: where the loops' own grid begins
const COUNT = 100; // steps of 4 %: enough to say how slow it is
/** A tenth beyond the wanted frequency, so that a crossing just below it is not at the grid's end. */
const WIDER = 1.1;
const TO_EITHER_SIDE = 1e-4; // share of P by which stability is tested on either side of the edge

/** Frequencies (rad/s) below `below` of the oscillations that stand where stable meets unstable ground, rising. */
export function slowEdges(
  craft: Craft,
  trim: Trim,
  axis: AxisName,
  holding: GainsByAxis,
  { d, i, p }: SweptGains,
  below: number,
): number[] {
  const low = lowPieces(craft, trim, axis, holding, below);
  const slow = d.flatMap((gain) =>
    ultimateGain(low, gain, i, p)
      .filter(({ frequency }) => frequency < below)
      .map((point) => ({ ...point, d: gain })),
  );
  if (slow.length === 0) return [];
  const pieces = axisPieces(craft, trim, axis, holding);
  const stable = (gain: number, at: number) => isStable(pieces, { p: at, i, d: gain });
  return slow
    .filter((one) => stable(one.d, one.p * (1 - TO_EITHER_SIDE)) !== stable(one.d, one.p * (1 + TO_EITHER_SIDE)))
    .map(({ frequency }) => frequency)
    .sort((a, b) => a - b);
}

function lowPieces(craft: Craft, trim: Trim, axis: AxisName, holding: GainsByAxis, below: number): LoopPieces {
  const nyquist = Math.PI * craft.airframe.controller.rate;
  const grid = denserAtNotches(sharedGrid(LOWEST, Math.min(WIDER * below, nyquist), COUNT), craft.airframe, trim);
  const plant = plantResponse(craft, trim, axis, holding)(grid);
  return loopPieces(grid, plant, controllerPieces(craft.airframe, trim, grid), { closes: false });
}
