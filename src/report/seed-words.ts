// What chance leaves open at a starting tune, in one plain line.
import { MEASURES } from "../base/measures.js";
import type { StabilityMap, StartingTune } from "../map/format.js";
import { lowerFirst } from "./limit-words.js";
import { three, withUnit } from "./numbers.js";
import { spoken } from "./units.js";

/** A range narrower than this share of the limit is not worth a word. */
const WORTH = 0.01;

/** "Under 9 other seeds wobble angle reads 1.1 to 1.3°."; "" for a map that does not say. */
export function seedWords({ limits }: Pick<StabilityMap, "limits">, { otherSeeds }: StartingTune): string {
  if (otherSeeds === undefined || otherSeeds.seeds === 0) return "";
  const who = `Under ${otherSeeds.seeds} other seeds of noise and disturbed air`;
  const said = MEASURES.flatMap(({ id, title, unit }) => {
    const range = otherSeeds.ranges[id];
    const limit = limits[id];
    if (range === undefined || limit === null || range[1] - range[0] <= WORTH * Math.abs(limit)) return [];
    return [`${lowerFirst(title)} ${three(range[0])} to ${withUnit(range[1], spoken(unit))}`];
  });
  if (said.length > 0) return `${who} these trials read ${said.join(", ")}.`;
  return `${who} these trials read the same, to ${100 * WORTH} % of every limit.`;
}
