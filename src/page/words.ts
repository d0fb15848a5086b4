// Gains, places and trials in the words of the report.
import { ABSENCES, MEASURES, type Measure, type MeasureId } from "../base/measures.js";
import { lowerFirst } from "../words/limit-words.js";
import { toThreeDigits, withUnit } from "../words/numbers.js";
import { printable } from "../words/printable.js";
import { unitLabel } from "../words/units.js";
import type { PageMap } from "./page-map.js";
import type { Level } from "./simulator.js";

/** "P 12 (60)": display units, with the controller's own number in brackets. */
function gainWords(letter: "P" | "D", value: number, own: number | null): string {
  return `${letter} ${toThreeDigits(value)}${own === null ? "" : ` (${toThreeDigits(value * own)})`}`;
}

export const placeWords = ({ own }: Pick<PageMap, "own">, p: number, d: number): string =>
  `${gainWords("P", p, own?.p ?? null)}, ${gainWords("D", d, own?.d ?? null)}`;

/** "hover, fresh pack"; text from files, fit to print. */
export const levelWords = ({ throttle, condition }: Level): string =>
  printable(`${throttle === null ? "hover" : `${withUnit(throttle, "%")} throttle`}, ${condition}`);

/** A measure's value with its unit, or why there is none. */
export function valueWords(measure: Measure, value: number | null, absent: number): string {
  if (value !== null && Number.isFinite(value)) return withUnit(value, unitLabel(measure.unit));
  return ABSENCES[absent] ?? "unknown";
}

export const beyond = ({ better }: Measure, value: number | null, limit: number | null): boolean =>
  value !== null && limit !== null && (better === "high" ? value < limit : better === "low" && value > limit);

/** "bounce-back 4.2 %, settling time 31 ms": what is there, in catalogue order. */
export function measuredWords(values: (id: MeasureId) => number | null): string {
  const phrases = MEASURES.flatMap((measure) => {
    const value = values(measure.id);
    return value === null ? [] : [`${lowerFirst(measure.title)} ${withUnit(value, unitLabel(measure.unit))}`];
  });
  return phrases.join(", ");
}
