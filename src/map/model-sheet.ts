// The sheet of the model that a map carries.
import { hoverFaults } from "../airframe/hover-faults.js";
import { filtersFit } from "../airframe/moving-filter.js";
import type { Sheet } from "../sheet/format.js";
import { sheetOf } from "../sheet/sheet.js";
import type { StabilityMap } from "./format.js";
import { storedAirframe } from "./simulable.js";

/** Null where the map lacks a part of its model, or holds one that no model file could. */
export function modelSheet(map: Pick<StabilityMap, "model">): Sheet | null {
  const airframe = storedAirframe(map);
  if (airframe === null || hoverFaults(airframe).length > 0) return null;
  return filtersFit(airframe) ? sheetOf(airframe) : null;
}
