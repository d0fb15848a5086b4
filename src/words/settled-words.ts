// Trials that were left out because a nudge alone settles their points, in words.
import type { StabilityMap } from "../map/format.js";
import { AXES } from "./axes.js";
import { count } from "./numbers.js";

/** Of both axes together; null where nothing was left out. */
export function settledWords({ axes }: Pick<StabilityMap, "axes">): string | null {
  const sum = (of: "points" | "trials") => AXES.reduce((total, name) => total + (axes[name].leftOut?.[of] ?? 0), 0);
  return sum("trials") === 0
    ? null
    : `${count(sum("trials"))} more left out at ${count(sum("points"))} points where a nudge does not die out, nor anywhere around them`;
}
