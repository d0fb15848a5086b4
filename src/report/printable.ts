// Text from files is data: control characters and marks that turn the reading direction must not reach a terminal
// or a page. The page's escaping and the CSV's quoting do the rest.
import { planOf } from "../compare/question.js";
import type { StabilityMap } from "../map/format.js";

// Control characters of both ranges, line and paragraph separators, and the directional marks of Unicode.
const UNPRINTABLE = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]+/g;

const printableText = (text: string): string => text.replace(UNPRINTABLE, " ");

/** Plain data with every text and key in it fit to print. */
export const printable = <T>(value: T): T => printableParts(value) as T;

function printableParts(value: unknown): unknown {
  if (typeof value === "string") return printableText(value);
  if (Array.isArray(value)) return value.map(printableParts);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [printableText(key), printableParts(part)]));
}

/** The map with every text fit to print; of the resolved model and plan only the wanted margins are ever printed. */
export function printableMap(map: StabilityMap): StabilityMap {
  const { margins } = planOf(map).sweep;
  return printable({ ...map, model: null, plan: { sweep: { margins } } });
}
