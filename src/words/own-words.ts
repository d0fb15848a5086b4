// Whose numbers the gains are: the controller's own, and what they are worth; or not the controller's, and how to learn that.

import type { StabilityMap } from "../map/format.js";
import { settingText } from "../map/gain-text.js";
import { type OwnScale, ownScale } from "../map/own-scale.js";
import { toThreeDigits } from "./numbers.js";
import { unitLabel } from "./units.js";

const MOST = 1e9;

/** What the controller's own numbers are worth, as many of them as make 1 or more: "1000 = 4 % per 100 °/s". */
function worthText(perUnit: number, unit: string, equals = "="): string {
  let many = 1;
  while (many < perUnit * (1 - 1e-9) && many < MOST) many *= 10;
  return `${many} ${equals} ${toThreeDigits(many / perUnit)}\u00a0${unitLabel(unit)}`;
}

/** Over a column, a field or an axis: "P (1000 = 4 % per 100 °/s)", or "P, % per 100 °/s". */
export const gainHead = (letter: string, perUnit: number | null, unit: string, whose = ""): string =>
  perUnit === null ? `${letter}, ${unitLabel(unit)}` : `${letter} (${whose}${worthText(perUnit, unit)})`;

const worthOf = (letter: string, perUnit: number, unit: string): string =>
  worthText(perUnit, unit, `of ${letter} ${perUnit > 1 ? "are" : "is"}`);

/** A gain to set, with our unit where the controller's own is not known. */
export function settingWords(own: OwnScale | null, gain: "p" | "i" | "d", value: number, unit: string): string {
  const text = settingText(own, gain, value);
  return own?.[gain] == null ? `${text}\u00a0${unitLabel(unit)}` : text;
}

/** The same with ours beside the controller's own: "2356 (9.43 % per 100 °/s)". */
export function settingWithOurs(own: OwnScale | null, gain: "p" | "i" | "d", value: number, unit: string): string {
  const ours = settingWords(null, gain, value, unit);
  return own?.[gain] == null ? ours : `${settingText(own, gain, value)} (${ours})`;
}

interface OwnWords {
  /** The one thing to know, in strong letters. */
  readonly lead: string;
  readonly rest: string;
  /** How to measure on the bench what one unit is worth; null where the model says it. */
  readonly bench: string | null;
}

/** For the start of a page, a card or a summary. */
export function ownWords(map: Pick<StabilityMap, "model" | "units" | "airframe">): OwnWords {
  const own = ownScale(map);
  if (own === null) return NOT_YOURS;
  const { p, d, i } = map.units;
  const worth = `${worthOf("P", own.p, p)}, ${worthOf("D", own.d, d)}`;
  return {
    lead: `Numbers of ${map.airframe.name}\u2019s own controller: never copy them onto another.`,
    rest: `There the same number is another gain. Here ${own.i === null ? `${worth}; what I is worth the model does not say` : `${worth}, ${worthOf("I", own.i, i)}`}.`,
    bench: null,
  };
}

const NOT_YOURS: OwnWords = Object.freeze({
  lead: "These are not your controller\u2019s numbers: do not type them in.",
  rest: "What one unit of its P and D is worth the model does not say (controller.one_unit). To learn it, fit a flight (gainscape fit), or measure it on the bench.",
  bench:
    "On the bench, propellers off, I and D at 0, turn the craft about its roll axis at a steady 100\u00a0\u00b0/s, nobody near the motors: the % of full by which a motor\u2019s command moves in the log, over the P that is set, is what one unit of P is worth. For D likewise, P at 0, while the turn quickens by 1000\u00a0\u00b0/s\u00b2.",
});

/** Units of bare numbers of P and D in a table or a comparison. */
export function gainUnits(own: OwnScale | null, { p, d }: { readonly p: string; readonly d: string }): string {
  if (own === null) return `P in ${unitLabel(p)}, D in ${unitLabel(d)}.`;
  return `P and D are the controller\u2019s own numbers: ${worthOf("P", own.p, p)}, ${worthOf("D", own.d, d)}.`;
}
