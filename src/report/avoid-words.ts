// What to keep away from on one axis, as a sentence.
import type { BoundaryPoint, StabilityMap } from "../map/format.js";
import { type Axis, boundaryAt } from "./axes.js";
import { culpritWords, lowerFirst } from "./limit-words.js";
import { three } from "./numbers.js";

/** Who decided, in brackets, where the map names it. */
function decidedWords(map: StabilityMap, { script, throttle, rate, condition }: BoundaryPoint): string {
  if (script === undefined || throttle === undefined || condition === undefined) return "";
  return ` (${lowerFirst(culpritWords(map, { script, throttle, rate: rate ?? 0, condition }))})`;
}

/** Where oscillation no longer dies out at the starting tune's D, or at the lowest D when there is no starting tune. */
export function avoidWords(map: StabilityMap, name: Axis): string {
  const axis = map.axes[name];
  const d = axis.start?.d ?? map.grid.d[0] ?? 0;
  const met = boundaryAt(axis, d);
  const top = three(map.grid.p.at(-1) ?? 0);
  if (met?.p != null)
    return `At D ${three(d)}, from P ${three(met.p)} up the oscillation does not die out${decidedWords(map, met)}.`;
  if (met?.reason === "always")
    return `At D ${three(d)} no swept P lets the oscillation die out${decidedWords(map, met)}.`;
  return `At D ${three(d)} no P up to ${top} sustains an oscillation; above it nothing was simulated.`;
}
