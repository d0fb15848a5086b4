// What to keep away from on one axis, as a sentence.
import { type ApartRange, apartOf, apartWords } from "../map/apart.js";
import type { DivergedPoint, StabilityMap } from "../map/format.js";
import type { LimitingCase } from "../map/limiting-case.js";
import { type Axis, boundaryAt } from "./axes.js";
import { limitingCaseWords, lowerFirst } from "./limit-words.js";
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
  const where = `at P ${toThreeDigits(first.p)}, D ${toThreeDigits(first.d)}${decidedWords(map, first)}`;
  return ` At ${points} the simulation left the range of its numbers, first ${where} after ${toThreeDigits(first.after)} s.`;
}

export const avoidWords = (map: StabilityMap, name: Axis): string =>
  boundaryWords(map, name) + divergedWords(map, name);

/** Where oscillation no longer dies out at the starting tune's D, or at the lowest D when there is no starting tune. */
function boundaryWords(map: StabilityMap, name: Axis): string {
  const axis = map.axes[name];
  const d = axis.start?.d ?? axis.grid.d[0] ?? 0;
  const met = boundaryAt(axis, d);
  const top = toThreeDigits(axis.grid.p.at(-1) ?? 0);
  if (met?.reason === "always")
    return `At D ${toThreeDigits(d)} no swept P lets the oscillation die out${decidedWords(map, met)}.`;
  const { from, fromDecidedBy, otherRanges = [] } = met ?? {};
  const below =
    from === undefined ? "" : ` Nor does it below P ${toThreeDigits(from)}${decidedWords(map, fromDecidedBy ?? {})}.`;
  const apart = apartOf({ boundary: { ...axis.boundary, sustained: met === null ? [] : [{ ...met, otherRanges }] } });
  const apartText = apart.map((range) => ` ${apartLine(range, axis.grid.p)}`).join("");
  if (met?.p != null)
    return `At D ${toThreeDigits(d)}, from P ${toThreeDigits(met.p)} up the oscillation does not die out${decidedWords(map, met)}.${below}${apartText}`;
  const least = from === undefined ? "" : `from ${toThreeDigits(from)} `;
  return `At D ${toThreeDigits(d)} no P ${least}up to ${top} sustains an oscillation; above it nothing was simulated.${from === undefined ? "" : ` Below P ${toThreeDigits(from)} it does not die out${decidedWords(map, fromDecidedBy ?? {})}.`}${apartText}`;
}

const apartLine = (range: ApartRange, p: readonly number[]): string =>
  range.below
    ? `A sliver below (${apartWords(range, p)}) is calm as well, but on the way up from it an oscillation stands.`
    : `Above it there is calm ground once more (${apartWords(range, p)}), beyond an oscillation.`;
