// What to keep away from on one axis, as a sentence.
import { type ApartRange, apartOf, apartWords } from "../map/apart.js";
import type { DivergedPoint, StabilityMap } from "../map/format.js";
import { endText, placeText, settingText } from "../map/gain-text.js";
import type { LimitingCase } from "../map/limiting-case.js";
import { marginEndOf } from "../map/margin-end.js";
import { type OwnScale, ownScale } from "../map/own-scale.js";
import { wantedMargins } from "../map/wanted-margins.js";
import { type Axis, boundaryAt } from "./axes.js";
import { limitingCaseWords, limitWords, lowerFirst } from "./limit-words.js";
import { count, toThreeDigits } from "./numbers.js";

/** The limiting case in brackets, where the map names it. */
function decidedWords(map: StabilityMap, { script, throttle, rate, condition }: Partial<LimitingCase>): string {
  if (script === undefined || throttle === undefined || condition === undefined) return "";
  return ` (${lowerFirst(limitingCaseWords(map, { script, throttle, rate: rate ?? 0, condition }))})`;
}

/** Where trials diverged, if they did: results there are not valid. */
function divergedWords(map: StabilityMap, name: Axis): string {
  const { divergences = [] } = map.axes[name];
  const first = divergences.reduce<DivergedPoint | null>((a, b) => (a === null || b.after < a.after ? b : a), null);
  if (first === null) return "";
  const points = divergences.length === 1 ? "1 point" : `${count(divergences.length)} points`;
  const where = `at ${placeText(ownScale(map), first)}${decidedWords(map, first)}`;
  return ` At ${points} the simulation left the range of its numbers, first ${where} after ${toThreeDigits(first.after)} s.`;
}

export const avoidWords = (map: StabilityMap, name: Axis): string =>
  boundaryWords(map, name) + divergedWords(map, name);

/** Above which P the margin ends, then where oscillation no longer dies out: at the starting tune's D, or at the lowest. */
function boundaryWords(map: StabilityMap, name: Axis): string {
  const axis = map.axes[name];
  const own = ownScale(map);
  const d = axis.start?.d ?? axis.grid.d[0] ?? 0;
  const met = boundaryAt(axis, d);
  const top = endText(own, "p", axis.grid.p.at(-1) ?? 0);
  const atD = `At D ${settingText(own, "d", d)}`;
  if (met?.reason === "always") return `${atD} no swept P lets the oscillation die out${decidedWords(map, met)}.`;
  const { from, fromDecidedBy, otherRanges = [] } = met ?? {};
  const below =
    from === undefined
      ? ""
      : ` Nor does it below P ${endText(own, "p", from)}${decidedWords(map, fromDecidedBy ?? {})}.`;
  const apart = apartOf({ boundary: { ...axis.boundary, sustained: met === null ? [] : [{ ...met, otherRanges }] } });
  const apartText = apart.map((range) => ` ${apartLine(own, range, axis.grid.p)}`).join("");
  const margin = marginText(map, name, met?.p ?? Number.POSITIVE_INFINITY);
  if (met?.p != null)
    return `${atD}${margin} from P ${endText(own, "p", met.p)} up the oscillation does not die out${decidedWords(map, met)}.${below}${apartText}`;
  const least = from === undefined ? "" : `from ${endText(own, "p", from)} `;
  return `${atD}${margin === "," ? "" : margin} no P ${least}up to ${top} sustains an oscillation; above it nothing was simulated.${from === undefined ? "" : ` Below P ${endText(own, "p", from)} it does not die out${decidedWords(map, fromDecidedBy ?? {})}.`}${apartText}`;
}

/** ", above P 3230 the margin shrinks (phase margin under 45°);", or a comma where it does not end before `sustained`. */
function marginText(map: StabilityMap, name: Axis, sustained: number): string {
  const end = marginEndOf(map.axes[name], wantedMargins(map));
  if (end === null || end.p >= sustained) return ",";
  const limit = limitWords(map, `${end.by} margin`);
  return `, above P ${endText(ownScale(map), "p", end.p)} the margin shrinks (${limit});`;
}

const apartLine = (own: OwnScale | null, range: ApartRange, p: readonly number[]): string =>
  range.below
    ? `A sliver below (${apartWords(own, range, p)}) is calm as well, but on the way up from it an oscillation stands.`
    : `Above it there is calm ground once more (${apartWords(own, range, p)}), beyond an oscillation.`;
