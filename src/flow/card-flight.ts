// Writes the flight file of a card beside it. One that somebody filled in stays, and the new one gets the next free name.
import { join, relative } from "node:path";
import { isFile } from "../files/folder.js";
import { readText } from "../files/read.js";
import { writeAtomically } from "../files/write.js";
import { MANOEUVRES } from "../flight/manoeuvres.js";
import { FLIGHT_FORMAT } from "../flight/schema.js";
import type { StabilityMap } from "../map/format.js";
import { cardFlight, isAsPrinted } from "../report/index.js";

export const CARD_FLIGHT = "card.flight.yaml";

/** The path written; null where the map plans no climb. */
export function writeCardFlight(map: StabilityMap, folder: string, modelFile: string): string | null {
  const model = relative(folder, modelFile);
  const text = cardFlight(map, { model, manoeuvres: MANOEUVRES, format: FLIGHT_FORMAT });
  if (text === null) return null;
  const path = placeFor(folder);
  writeAtomically(path, text);
  return path;
}

/** The first name that is free, or taken by a file that nobody has touched. */
function placeFor(folder: string): string {
  for (let k = 1; ; k++) {
    const path = join(folder, k === 1 ? CARD_FLIGHT : `card.flight-${k}.yaml`);
    if (!isFile(path) || isAsPrinted(readText(path, "a flight file"))) return path;
  }
}
