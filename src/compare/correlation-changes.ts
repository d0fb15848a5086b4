// Which numbers of two models go together otherwise: "motor.resistance with propeller.ct: 0.83 → none".
import type { Correlation } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import type { KeyChange } from "./format.js";

/** Pairs named; of a fit all of some hundred may differ. */
const NAMED = 8;

/** The pairs that differ most, and how many more. */
export function correlationChanges(before: unknown, after: unknown): KeyChange[] {
  const [from, to] = [byPair(before), byPair(after)];
  const changes = [...new Set([...from.keys(), ...to.keys()])]
    .map((pair) => ({ pair, was: from.get(pair), is: to.get(pair) }))
    .filter(({ was, is }) => was !== is)
    .map((change) => ({ ...change, by: Math.abs((change.is ?? 0) - (change.was ?? 0)) }))
    .sort((one, other) => other.by - one.by || (one.pair < other.pair ? -1 : 1));
  const named = changes.slice(0, NAMED).map(({ pair, was, is }) => ({
    key: pair,
    before: textOf(was),
    after: textOf(is),
  }));
  const more = changes.length - named.length;
  if (more === 0) return named;
  const key = `correlations, ${more} pairs more`;
  return [...named, { key, before: `${from.size} pairs in all`, after: `${to.size} pairs in all` }];
}

/** As declared in a resolved model of any version. */
export const correlationsIn = (model: unknown): readonly Correlation[] =>
  (model as { readonly correlations?: readonly Correlation[] } | null)?.correlations ?? [];

/** "motor.resistance with propeller.ct", whichever of the two stands first. */
export function pairText({ one, other }: Pick<Correlation, "one" | "other">): string {
  const keys = [one, other].sort();
  return `${at(keys, 0)} with ${at(keys, 1)}`;
}

const byPair = (model: unknown): ReadonlyMap<string, number> =>
  new Map(correlationsIn(model).map((pair) => [pairText(pair), pair.correlation]));

/** "none" where the two are each for itself. */
const textOf = (correlation: number | undefined): string => (correlation === undefined ? "none" : String(correlation));
