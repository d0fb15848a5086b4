// Which numbers of two maps have other values in the same draw.
import { memberGroups } from "../airframe/together.js";
import { at } from "../base/at.js";
import type { SpreadOfMap } from "../map/confidence-format.js";
import type { StabilityMap } from "../map/format.js";
import { correlationsIn, pairText } from "./correlation-changes.js";

export interface NumbersApart {
  /** Keys that both or one side says a spread of, and not the same: drawn on each side for itself. */
  readonly own: readonly string[];
  /** Of the others, keys whose group is not the same: its numbers and their spreads, or their correlations. */
  readonly together: readonly string[];
}

export function numbersApart(base: StabilityMap, candidate: StabilityMap): NumbersApart {
  const own = keysThatDiffer(spreadTexts(base), spreadTexts(candidate));
  const together = keysThatDiffer(groupTexts(base), groupTexts(candidate)).filter((key) => !own.includes(key));
  return { own, together };
}

function keysThatDiffer(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): string[] {
  return [...new Set([...before.keys(), ...after.keys()])].filter((key) => before.get(key) !== after.get(key)).sort();
}

const spreadsIn = ({ uncertainty }: StabilityMap): readonly SpreadOfMap[] => uncertainty?.spreads ?? [];

const textOf = ({ key, nominal, law, size }: SpreadOfMap): string => `${key} ${nominal} ${law} ${size}`;

const spreadTexts = (map: StabilityMap): ReadonlyMap<string, string> =>
  new Map(spreadsIn(map).map((spread) => [spread.key, textOf(spread)]));

/** Of numbers that go together: everything that their draws depend on. */
function groupTexts(map: StabilityMap): ReadonlyMap<string, string> {
  const spreads = spreadsIn(map);
  const correlations = correlationsIn(map.model);
  return new Map(
    memberGroups(spreads, correlations).flatMap((members) => {
      const group = members.map((member) => at(spreads, member));
      const keys = group.map(({ key }) => key);
      const pairs = correlations.filter(({ one, correlation }) => correlation !== 0 && keys.includes(one));
      const texts = [...group.map(textOf), ...pairs.map((pair) => `${pairText(pair)} ${pair.correlation}`).sort()];
      return keys.map((key) => [key, texts.join("\n")] as const);
    }),
  );
}
