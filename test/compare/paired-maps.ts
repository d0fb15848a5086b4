// Draws put by hand into maps of the test craft: what a comparison makes of them is then known.
import type { DrawOfAxis, SpreadOfMap, Uncertainty } from "../../src/map/confidence-format.js";
import type { StabilityMap } from "../../src/map/format.js";

export const DRAWS = 64;

/** What the sweep's draws may have made of a number: a factor of its boundary, the same on both sides of a pair. */
export const SHARED = Array.from({ length: DRAWS }, (_, k) => 0.7 + (0.6 * k) / (DRAWS - 1));

export interface ByHand {
  /** Factor of the sustained boundary, by draw; null: none up to far above the grid. */
  readonly factors: readonly (number | null)[];
  /** Draws in which the starting tune is not safe. */
  readonly unsafe?: readonly number[];
  readonly spreads?: readonly SpreadOfMap[];
}

export const KV: SpreadOfMap = { key: "motor.kv", nominal: 204, law: "normal", size: 8 };

/** Where no boundary lies in the grid, draws have one at its top. */
export function withDraws(map: StabilityMap, { factors, unsafe = [], spreads = [KV] }: ByHand): StabilityMap {
  const of = (axis: "roll" | "pitch", k: number, factor: number | null): DrawOfAxis => ({
    boundary: map.axes[axis].boundary.sustained.map(({ p }) =>
      factor === null ? null : factor * (p ?? map.axes[axis].grid.p.at(-1) ?? 1),
    ),
    startFailsBy: unsafe.includes(k) ? "heat" : null,
  });
  const uncertainty: Uncertainty = {
    confidence: 0.9,
    pointDraws: DRAWS,
    spreads,
    redrawn: 0,
    draws: factors.map((factor, k) => ({
      values: spreads.map(({ nominal }) => nominal),
      roll: of("roll", k, factor),
      pitch: of("pitch", k, factor),
    })),
  };
  return { ...map, uncertainty };
}
