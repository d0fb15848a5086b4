// Theory's results for one axis in sentences: agreement, the effect of the time step, hard manoeuvres.
import { THEORY } from "../base/theory-name.js";
import type { AxisMap, StabilityMap } from "../map/format.js";
import { endText, settingText } from "../map/gain-text.js";
import { type OwnScale, ownScale } from "../map/own-scale.js";
import type { Agreement, ComparedEnd, TheoryBoundary } from "../map/theory-format.js";
import { MANOEUVRES, SMALL_SIGNAL, type WorstEnd, worstEnds } from "../map/worst-ends.js";
import { AXIS_TITLES, type Axis } from "./axes.js";
import { limitingCaseWords, lowerFirst } from "./limit-words.js";
import { count, withUnit } from "./numbers.js";

const percents = (value: number): string => withUnit(Number(Math.abs(value).toPrecision(2)), "%");

const place = (own: OwnScale | null, { throttle, condition, d }: ComparedEnd): string =>
  `${withUnit(throttle, "%")} throttle, ${condition}, D ${settingText(own, "d", d)}`;

/** How the simulated boundary of a nudge meets theory's. */
export function agreementWords(own: OwnScale | null, name: Axis, { agreement }: TheoryBoundary): string {
  const title = AXIS_TITLES[name];
  if (agreement === null)
    return `${title}: the sweep has no small nudge in still air, so there is nothing to hold against theory.`;
  if (agreement.worst?.difference == null)
    return agreement.disagreements.length === 0
      ? `${title}: neither theory nor trials find an end within the swept range.`
      : `${title}: ${disagreementWords(agreement)}`;
  const { worst, ends, median } = agreement;
  const most = `${title}: the worst of ${count(ends)} compared places differs by ${percents(worst.difference ?? 0)} of P (${place(own, worst)}), the middle one by ${percents(median ?? 0)}.`;
  return `${most} ${disagreementWords(agreement)}`;
}

function disagreementWords({ disagreements, tolerance }: Agreement): string {
  const limit = withUnit(tolerance, "%");
  if (disagreements.length === 0) return `None differs by more than ${limit}.`;
  return `${count(disagreements.length)} differ by more than ${limit} or are seen by one side alone; they are listed below.`;
}

/** At how much of D theory, not a trial, ends the stable range; nothing where it ends none. */
export function decidesWords({ boundary: { sustained } }: AxisMap): string {
  const lines = sustained.filter(
    ({ script, fromDecidedBy }) => script === THEORY || fromDecidedBy?.script === THEORY,
  ).length;
  if (lines === 0) return "";
  return `At ${lines} of ${sustained.length} D trials see no oscillation where theory has one, or only more than 5 % of P beyond: there theory ends the stable range.`;
}

/** One place where theory and trials part. */
export function disagreementLine(own: OwnScale | null, end: ComparedEnd): string {
  const side = (title: string, p: number | null) => `${title} ${p === null ? "none" : `P ${endText(own, "p", p)}`}`;
  return `${place(own, end)}: ${side("theory", end.theory)}, ${side("trials", end.simulated)}`;
}

/** How far the loop's own time step moves the boundary. */
export function stepWords(own: OwnScale | null, { step }: TheoryBoundary): string {
  if (step?.difference == null) return "";
  return `The loop's own time step moves it by at most ${percents(step.difference)} of P against a loop without one (${place(own, step)}).`;
}

interface Lowered {
  readonly hard: WorstEnd;
  readonly nudge: number;
  readonly share: number; // %, below zero where the hard one is lower
}

/** What hard manoeuvres take from the boundary at each D where both lie within the swept range, most first. */
function loweredBy(axis: AxisMap): Lowered[] {
  const nudges = new Map(worstEnds(axis, SMALL_SIGNAL).map(({ d, p }) => [d, p]));
  const both = worstEnds(axis, MANOEUVRES).flatMap((hard): Lowered[] => {
    const nudge = nudges.get(hard.d);
    return nudge === undefined ? [] : [{ hard, nudge, share: 100 * (hard.p / nudge - 1) }];
  });
  return both.sort((a, b) => a.share - b.share);
}

/** Below this the two lines are one: the trials' own resolution, %. */
const ONE_LINE = 0.5;

/** The most that hard manoeuvres take from the boundary of a nudge, % (below zero); 0: nothing, null: no D shows both. */
export function mostLowered(axis: AxisMap): number | null {
  const most = loweredBy(axis)[0];
  if (most === undefined) return null;
  return most.share > -ONE_LINE ? 0 : most.share;
}

export function manoeuvreWords(map: StabilityMap, name: Axis): string {
  const lowered = loweredBy(map.axes[name]);
  const [most, middle] = [lowered[0], lowered[lowered.length >> 1]];
  const title = AXIS_TITLES[name];
  if (most === undefined || middle === undefined) return `${title}: no D shows both boundaries within the swept range.`;
  if (most.share > -ONE_LINE) return `${title}: hard manoeuvres take nothing from it.`;
  const { hard, nudge, share } = most;
  const usual = middle.share > -ONE_LINE ? "as high at half of the D" : `${percents(middle.share)} lower in the middle`;
  const own = ownScale(map);
  const ends = `P ${endText(own, "p", hard.p)} instead of ${endText(own, "p", nudge)}`;
  const cause = lowerFirst(limitingCaseWords(map, hard.by));
  return `${title}: ${usual}, ${percents(share)} lower at D ${settingText(own, "d", hard.d)}, the most: ${ends} (${cause}).`;
}
