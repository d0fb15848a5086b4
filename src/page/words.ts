// Gains, places and trials in the words of the report.
import { ABSENCES, MEASURES, type Measure, type MeasureId } from "../base/measures.js";
import { placeText } from "../map/gain-text.js";
import { lowerFirst } from "../words/limit-words.js";
import { withUnit } from "../words/numbers.js";
import { settingWords } from "../words/own-words.js";
import { printable } from "../words/printable.js";
import { unitLabel } from "../words/units.js";
import type { PageMap } from "./page-map.js";
import type { Level } from "./simulator.js";

/** Gains in display units. */
interface Place {
  readonly p: number;
  readonly d: number;
}

/** Gains in our units, for beside the controller's own: "9.43 % per 100 °/s, 0.958 % per 1000 °/s²"; "" where those are not known. */
export const besideWords = ({ own, units }: Pick<PageMap, "own" | "units">, { p, d }: Place): string =>
  own === null ? "" : `${settingWords(null, "p", p, units.p)}, ${settingWords(null, "d", d, units.d)}`;

/** "P 2356, D 1916 (9.43 % per 100 °/s, 0.958 % per 1000 °/s²)". */
export function placeWords(pageMap: Pick<PageMap, "own" | "units">, p: number, d: number): string {
  const beside = besideWords(pageMap, { p, d });
  return `${placeText(pageMap.own, { p, d })}${beside === "" ? "" : ` (${beside})`}`;
}

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
