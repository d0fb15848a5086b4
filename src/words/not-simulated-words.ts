// Why a report cannot simulate trials in the page, as one sentence.
import { shellLine } from "../base/shell-words.js";
import type { StabilityMap } from "../map/format.js";
import { missingToSimulate } from "../map/simulable.js";

/** Null where the page can. `map` is as it was read, with its model and plan. */
export function notSimulatedWords(map: StabilityMap): string | null {
  const missing = missingToSimulate(map);
  if (missing === null) return null;
  const again = shellLine(["gainscape", "sweep", map.provenance.sweep]);
  return `Trials of this map cannot be simulated in the page, which needs ${missing} as this version writes it; ${again} makes the map anew.`;
}
