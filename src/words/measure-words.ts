// Which measures have a map of their own, and its caption.
import { type MeasureId, measureOf } from "../base/measures.js";
import type { StabilityMap } from "../map/format.js";
import { withUnit } from "./numbers.js";
import { unitLabel } from "./units.js";

export const MAPPED: readonly MeasureId[] = Object.freeze([
  "overshoot",
  "settling",
  "ringFrequency",
  "wobbleAngle",
  "wobbleFrequency",
  "heat",
]);

/** What untinted ground means. */
export const BARE = "Bare ground: nothing to measure there.";

/** What the tints and lines of a measure's map mean. */
export function measureWords({ limits }: Pick<StabilityMap, "limits">, id: MeasureId): string {
  const { unit, better } = measureOf(id);
  const limit = limits[id];
  const inUnit = unitLabel(unit) === "" ? "" : ` in ${unitLabel(unit)}`;
  const bound = limit === null ? "" : ` The broken line is the limit, ${withUnit(limit, unitLabel(unit))}.`;
  const tint = {
    low: "a stronger tint is worse",
    high: "a stronger tint is better",
    neither: "a stronger tint is faster",
  }[better ?? "neither"];
  return `Contours${inUnit}, ${tint}.${bound}`;
}
