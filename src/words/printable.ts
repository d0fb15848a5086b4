// Text from files is data: invisible characters and those that change the reading direction must not reach a page or a
// table. The page's escaping and the CSV's quoting do the rest.
import { withBlanks } from "../base/hidden.js";
import { planOf } from "../compare/question.js";
import type { StabilityMap } from "../map/format.js";

/** Plain data with every text and key in it fit to print. */
export const printable = <T>(value: T): T => printableParts(value) as T;

function printableParts(value: unknown): unknown {
  if (typeof value === "string") return withBlanks(value);
  if (Array.isArray(value)) return value.map(printableParts);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [withBlanks(key), printableParts(part)]));
}

/** The map with every text fit to print; of the resolved model and plan only the controller and the wanted margins are ever printed. */
export function printableMap(map: StabilityMap): StabilityMap {
  const { margins } = planOf(map).sweep;
  const { controller } = (map.model ?? {}) as { readonly controller?: unknown };
  return printable({ ...map, model: { controller }, plan: { sweep: { margins } } });
}
