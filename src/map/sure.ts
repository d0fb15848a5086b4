// How sure a map is of one axis, joined from its two places in map.json.
import type { AxisConfidence, Uncertainty } from "./confidence-format.js";
import type { AxisMap, StabilityMap } from "./format.js";

export interface Sure extends AxisConfidence, Pick<Uncertainty, "confidence" | "pointDraws"> {
  /** Whether a grid point is safe in as many draws as the confidence asks for. */
  readonly holds: (i: number, j: number) => boolean;
  /** In how many draws a point must be safe for that, not always whole. */
  readonly level: number;
}

/** Null where the map was made without draws. */
export function sureOf(
  { uncertainty }: Pick<StabilityMap, "uncertainty">,
  axis: Pick<AxisMap, "confidence">,
): Sure | null {
  if (uncertainty === undefined || axis.confidence === undefined) return null;
  const { confidence, pointDraws } = uncertainty;
  const { safeDraws } = axis.confidence;
  const level = confidence * pointDraws;
  const holds = (i: number, j: number) => (safeDraws[i]?.[j] ?? 0) >= level;
  return { ...axis.confidence, confidence, pointDraws, level, holds };
}
