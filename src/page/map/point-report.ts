// What the page shows about a point of the map, or about the starting tune.
import { at } from "../../base/at.js";
import { MEASURE_IDS, type MeasureId, type Verdict } from "../../base/measures.js";
import { limitingCaseBy, NOBODY } from "../../map/decider.js";
import { placeText } from "../../map/gain-text.js";
import { SUSTAINED_ANYWAY } from "../../map/worst.js";
import type { Axis } from "../../words/axes.js";
import { countWords, SIMULATED_CRAFT } from "../../words/confidence-words.js";
import { limitingCaseWords } from "../../words/limit-words.js";
import { printable } from "../../words/printable.js";
import { VERDICT_WORDS } from "../../words/verdict-words.js";
import type { PageMap, PageMapAxis } from "../page-map.js";
import { besideWords, levelWords } from "../words.js";
import type { Node } from "./plate.js";
import type { View } from "./view.js";

export interface PointReport {
  readonly place: string;
  /** The same in our units; "" where the controller's own are not known. */
  readonly beside: string;
  /** Null while it is being simulated. */
  readonly verdict: Verdict | null;
  readonly title: string;
  readonly decided: string;
  /** In how many draws the point is safe; "" where the map or the view does not say. */
  readonly share: string;
  readonly value: (id: MeasureId) => number | null;
  /** Index into ABSENCES. */
  readonly absent: (id: MeasureId) => number;
  /** dB and deg; null: not available here. */
  readonly margins: { readonly gainUp: number | null; readonly phase: number | null } | null;
}

const SAFE = "Clean and safe";
const LEFT_OUT = "Nothing else could change that, so the other scripts were not simulated here.";

/** The starting tune, from trials at exactly its gains. */
export function startReport(
  pageMap: PageMap,
  axis: Axis,
  start: NonNullable<PageMap["tunes"][Axis]["start"]>,
): PointReport {
  const share = pageMap.draws?.start[axis] ?? null;
  return {
    place: placeText(pageMap.own, start),
    beside: besideWords(pageMap, start),
    verdict: "clean",
    title: pageMap.draws === undefined ? SAFE : VERDICT_WORDS.clean.title,
    decided: "The starting tune itself. No limit passed.",
    share: share === null ? "" : sharing(share),
    value: (id) => start.measures[id],
    absent: (id) => start.absent[id],
    margins: start,
  };
}

export function pointReport(pageMap: PageMap, axis: Axis, { i, j }: Node, { axes, level }: View): PointReport {
  const { p, d } = pageMap.axes[axis].grid;
  const gains = { p: at(p, j), d: at(d, i) };
  const where = { place: placeText(pageMap.own, gains), beside: besideWords(pageMap, gains) };
  const found = axes[axis];
  if (found === undefined)
    return { ...NOT_SIMULATED, ...where, share: "", decided: level === null ? "" : `Under ${levelWords(level)}.` };
  const verdict = found.verdict[i]?.[j] ?? "sustained";
  const limitingCase = limitingCaseBy(found.decidedBy[i]?.[j] ?? NOBODY, (index) => pageMap.variants[index]);
  const leftOut = MEASURE_IDS.some((id) => found.absent[id][i]?.[j] === SUSTAINED_ANYWAY) ? ` ${LEFT_OUT}` : "";
  const under = level === null ? "" : ` Under ${levelWords(level)} alone.`;
  return {
    ...where,
    verdict,
    title: isSafe(pageMap, found, i, j) ? SAFE : VERDICT_WORDS[verdict].title,
    share: shareOf(pageMap, found, i, j),
    decided: `${limitingCase === null ? "No limit passed." : `Decided by: ${printable(limitingCaseWords(pageMap, limitingCase))}.`}${leftOut}${under}`,
    value: (id) => found.measures[id][i]?.[j] ?? null,
    absent: (id) => found.absent[id][i]?.[j] ?? 0,
    margins: found.margins && {
      gainUp: found.margins.gainUp[i]?.[j] ?? null,
      phase: found.margins.phase[i]?.[j] ?? null,
    },
  };
}

/** At the confidence, where the map was made with draws. */
function isSafe({ draws }: PageMap, { safe, safeDraws }: PageMapAxis, i: number, j: number): boolean {
  const asWritten = safe[i]?.[j] === true;
  if (draws === undefined || safeDraws === undefined) return asWritten;
  return asWritten && (safeDraws[i]?.[j] ?? 0) >= draws.confidence * draws.of;
}

function shareOf({ draws }: PageMap, { safeDraws }: PageMapAxis, i: number, j: number): string {
  if (draws === undefined || safeDraws === undefined) return "";
  return sharing(`${countWords(safeDraws[i]?.[j] ?? 0, draws.of)} draws`);
}

const sharing = (share: string): string => `Safe in ${share}: ${SIMULATED_CRAFT}.`;

const NOT_SIMULATED = Object.freeze({
  verdict: null,
  title: "Being simulated",
  value: () => null,
  absent: () => 0,
  margins: null,
});

/** The measures to show: none while the point is being simulated, and none that was left out. */
export const shownIds = ({ verdict, absent }: PointReport): readonly MeasureId[] =>
  verdict === null ? [] : MEASURE_IDS.filter((id) => absent(id) !== SUSTAINED_ANYWAY);
