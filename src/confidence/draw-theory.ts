// What theory says of one draw: at which gains an axis has the wanted margins, and where its oscillation sustains itself.

import { at } from "../base/at.js";
import { usefulFirst } from "../map/useful.js";
import { levelTrim, type Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { coarsePieces } from "../theory/axis-pieces.js";
import { stableIntervals } from "../theory/boundary.js";
import type { LoopPieces } from "../theory/pieces.js";
import type { GainsByAxis } from "../theory/plant.js";
import { haveMargins } from "../theory/wanted-margins.js";

export type Gains = readonly [p: number, d: number];

export interface DrawTheory {
  /** Per pair of SI gains 1 where every loop has the wanted margins. */
  haveMargins(gains: readonly Gains[]): Uint8Array;
  /** P above which some loop sustains an oscillation at this D; null: none up to far above the grid. */
  boundary(d: number): number | null;
}

/** Above the grid by this factor a boundary is still searched for. */
const BEYOND = 4;

/**
 * `places`: variants, one for each throttle level and condition that count. The loops of both axes at one place share the
 * physics, so both are made at once.
 */
export function drawTheory(
  plan: Plan,
  places: Readonly<Record<Axis, readonly number[]>>,
): Readonly<Record<Axis, DrawTheory>> {
  const holding: GainsByAxis = { ...plan.holding, yaw: plan.airframe.controller.yaw };
  const piecesByLevel = new Map<string, (axis: Axis, holding: GainsByAxis) => LoopPieces>();
  const piecesAt = (index: number, axis: Axis): LoopPieces => {
    const variant = at(plan.variants, index);
    const key = `${variant.condition} ${variant.throttle}`;
    const pieces =
      piecesByLevel.get(key) ?? coarsePieces(at(plan.conditions, variant.condition).craft, levelTrim(plan, variant));
    piecesByLevel.set(key, pieces);
    return pieces(axis, holding);
  };
  const of = (axis: Axis): DrawTheory => {
    const { i } = plan.airframe.controller[axis];
    const { p: line } = plan.sweep.grid[axis];
    const loops = places[axis].map((index) => piecesAt(index, axis));
    const range = { from: at(line, 0) / BEYOND, to: at(line, line.length - 1) * BEYOND };
    return {
      haveMargins: (gains) =>
        haveMargins(
          loops,
          gains.map(([p, d]) => ({ p, i, d })),
          plan.sweep.margins,
        ),
      boundary: (d) => {
        const ends = loops.map((pieces) => usefulFirst(stableIntervals(pieces, d, i, range))[0]?.to ?? range.from);
        const lowest = Math.min(...ends);
        return lowest < range.to ? lowest : null;
      },
    };
  };
  return { roll: of("roll"), pitch: of("pitch") };
}
