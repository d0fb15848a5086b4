// The spread of a starting tune's measures under other seeds, in one line.
import { MEASURES } from "../base/measures.js";
import type { StabilityMap, StartingTune } from "../map/format.js";
import { lowerFirst } from "./limit-words.js";
import { toThreeDigits, withUnit } from "./numbers.js";
import { unitLabel } from "./units.js";

/** A range narrower than this share of the limit is not mentioned. */
const WORTH = 0.01;

/** "Under 9 other seeds wobble angle reads 1.1 to 1.3°."; "" for a map that does not say. */
export function seedWords({ limits }: Pick<StabilityMap, "limits">, { otherSeeds }: StartingTune): string {
  if (otherSeeds === undefined || otherSeeds.seeds === 0) return "";
  const seedsText = `Under ${otherSeeds.seeds} other seeds of noise and disturbed air`;
  const readings = MEASURES.flatMap(({ id, title, unit }) => {
    const range = otherSeeds.ranges[id];
    const limit = limits[id];
    if (range === undefined || limit === null || range[1] - range[0] <= WORTH * Math.abs(limit)) return [];
    return [`${lowerFirst(title)} ${toThreeDigits(range[0])} to ${withUnit(range[1], unitLabel(unit))}`];
  });
  if (readings.length > 0) return `${seedsText} these trials read ${readings.join(", ")}.`;
  return `${seedsText} these trials read the same, to ${100 * WORTH} % of every limit.`;
}
