// What changed in the model, key by key, with the keys and units of a model file.
import { type Change, changesBetween } from "./changes.js";
import { correlationChanges } from "./correlation-changes.js";
import type { KeyChange } from "./format.js";
import { modelKey, valueInFileUnits } from "./model-keys.js";
import { spreadChanges } from "./spread-changes.js";

const ROUNDING = 1e-12; // share of the largest number in the same group: sums of parts in another order differ by this
const NAMES = new Set(["version", "title"]); // reported elsewhere

/** Keys whose values differ between two resolved models; differences of rounding left out. */
export function modelChanges(before: unknown, after: unknown): KeyChange[] {
  const values = changesBetween(before, after)
    .filter(({ key }) => !NAMES.has(key) && !/^(defaulted|spreads|correlations|changed)/.test(key))
    .filter((change) => !isRounding(change, before))
    .sort((a, b) => rank(a) - rank(b) || (a.key < b.key ? -1 : 1)) // a file read back has its keys in another order
    .map(inFileTerms);
  return [...values, ...spreadChanges(before, after), ...correlationChanges(before, after)];
}

// What a file states comes before what is computed from it.
const ORDER = [
  "propeller",
  "motor",
  "pack",
  "sensing",
  "controller",
  "rotors",
  "wash",
  "mass",
  "centreOfMass",
  "inertia",
];

const rank = ({ path }: Change): number => ORDER.indexOf(String(path[0]));

/** In file units; where four figures do not distinguish the two, the SI numbers in full. */
export function inFileTerms({ key, before, after }: Change): KeyChange {
  const [from, to] = [valueInFileUnits(key, before), valueInFileUnits(key, after)];
  const differ = from !== to;
  return { key: modelKey(key), before: differ ? from : `${before} (SI)`, after: differ ? to : `${after} (SI)` };
}

function isRounding({ path, before, after }: Change, model: unknown): boolean {
  if (typeof before !== "number" || typeof after !== "number") return false;
  const siblings = path
    .slice(0, -1)
    .reduce<unknown>((part, key) => (part as Record<string | number, unknown>)[key], model);
  const numbers = Object.values(siblings as object).filter((value): value is number => typeof value === "number");
  return Math.abs(before - after) <= ROUNDING * Math.max(...numbers.map(Math.abs));
}
