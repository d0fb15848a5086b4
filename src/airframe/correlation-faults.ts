// Faults of a model's correlations: pairs that are none, and pairs that no set of numbers can have at once.
import { at } from "../base/at.js";
import { canonicalJson } from "../base/canonical.js";
import { suggestion } from "../base/nearest.js";
import type { Spread } from "../base/spread.js";
import type { Correlation } from "./airframe.js";
import { keysOf } from "./correlation-keys.js";
import type { Fault } from "./fault.js";
import { MOST_TOGETHER } from "./ranges.js";
import { groupsOf, mendedBy, type Together } from "./together.js";

/** Rounding, and small correlations that were left out, move the others by up to this; what moves more is a mistake. */
const MOST_MENDED = 0.02;

type Keys = readonly Pick<Spread, "key">[];

/** `data` is the file's own, which has passed the schema. */
export function correlationFaults(correlations: readonly Correlation[], spreads: Keys, data: unknown): Fault[] {
  const seen = new Map<string, number>();
  const wrong = correlations.flatMap((pair, index) => {
    const names = namesOf(pair);
    const earlier = seen.get(names);
    seen.set(names, earlier ?? index);
    return pairFaults(pair, index, earlier, spreads, data);
  });
  return wrong.length > 0 ? wrong : togetherFaults(correlations, spreads);
}

/** The same whichever stands first. */
const namesOf = ({ one, other }: Pick<Correlation, "one" | "other">): string => canonicalJson([one, other].sort());

function pairFaults(
  { one, other }: Correlation,
  index: number,
  earlier: number | undefined,
  spreads: Keys,
  data: unknown,
): Fault[] {
  const path = ["correlations", index];
  const strange = Object.entries({ one, other }).flatMap(([end, key]): Fault[] => {
    if (spreads.some((spread) => spread.key === key)) return [];
    return [{ path: [...path, end], message: strangerWords(key, spreads, data) }];
  });
  if (strange.length > 0) return strange;
  if (one === other) return [{ path: [...path, "other"], message: `is ${one} again; expected another number` }];
  return earlier === undefined
    ? []
    : [{ path, message: `${one} and ${other} stand in correlations[${earlier}] already; expected each pair once` }];
}

function strangerWords(key: string, spreads: Keys, data: unknown): string {
  const isThere = key
    .split(/[.[\]]+/)
    .filter((part) => part !== "")
    .reduce<unknown>((group, part) => (group as Record<string, unknown> | null | undefined)?.[part], data);
  if (typeof isThere === "string" || typeof isThere === "number")
    return `${key} has no spread, so it goes with no other number; write ± beside it, or leave this pair out`;
  const keys = spreads.map((spread) => spread.key);
  const hint = suggestion(key, keys);
  return `this model has no number ${key} with a spread${hint.startsWith(" (did") ? hint : '; expected a key as this file has it, such as "frame.parts[2].mass"'}`;
}

function togetherFaults(correlations: readonly Correlation[], spreads: Keys): Fault[] {
  if (keysOf(correlations).size > MOST_TOGETHER)
    return [{ path: ["correlations"], message: `more than ${MOST_TOGETHER} numbers go together; expected fewer` }];
  const groups = groupsOf(spreads, correlations);
  return groups.flatMap((group) => (mendedBy(group) > MOST_MENDED ? [brokenBy(group, correlations, spreads)] : []));
}

/** By the pair that the nearest possible correlations differ from most. */
function brokenBy({ members, declared, matrix }: Together, correlations: readonly Correlation[], spreads: Keys): Fault {
  const pairs = members.flatMap((one, i) => members.slice(0, i).map((other, j) => ({ one, other, i, j })));
  const far = ({ i, j }: { readonly i: number; readonly j: number }) => Math.abs(matrix.get(i, j) - declared.get(i, j));
  const worst = pairs.reduce((found, pair) => (far(pair) > far(found) ? pair : found));
  const [one, other] = [at(spreads, worst.one).key, at(spreads, worst.other).key];
  const nearest = `of those that can, the nearest have ${matrix.get(worst.i, worst.j).toFixed(2)} here`;
  const names = namesOf({ one, other });
  const place = correlations.findIndex((pair) => namesOf(pair) === names);
  const pair = correlations[place];
  return pair === undefined
    ? {
        path: ["correlations"],
        message: `${one} and ${other} are no pair, which means 0, and that cannot be beside the other pairs; ${nearest}`,
      }
    : {
        path: ["correlations", place, "correlation"],
        message: `${pair.correlation} for ${pair.one} and ${pair.other} cannot be beside the other pairs; ${nearest}`,
      };
}
