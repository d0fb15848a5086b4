// The controller's own units per display unit of a gain.
import type { StabilityMap } from "../map/format.js";
import { AXES } from "./axes.js";

export interface OwnScale {
  readonly p: number;
  readonly d: number;
}

/** Read from a starting tune, which has both numbers; null where the model declares no scale. */
export function ownScale(map: StabilityMap): OwnScale | null {
  for (const axis of AXES) {
    const start = map.axes[axis].start;
    if (start?.own != null && start.p > 0 && start.d > 0) return { p: start.own.p / start.p, d: start.own.d / start.d };
  }
  return null;
}
