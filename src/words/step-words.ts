// What a step is for, what to look and listen for in it, and when to land at once.
import { at } from "../base/at.js";
import { ladderRow } from "../base/script-kinds.js";
import type { StabilityMap } from "../map/format.js";
import type { LadderManoeuvre, LadderStep, LadderTune } from "../map/ladder-format.js";
import { AXES, type Axis } from "./axes.js";
import { changeWords } from "./change-words.js";
import { about, percent, toThreeDigits, withUnit } from "./numbers.js";
import { type Swing, swingOf } from "./swing-words.js";

export interface StepWords {
  readonly title: string;
  /** Against the step before; null where there is none to compare with. */
  readonly change: string | null;
  readonly look: string;
  readonly listen: string;
  readonly land: string;
}

/** What ends any flight of the climb. Common practice, no source. */
export const LAND_ALWAYS =
  "a swing does not die out within a second, a motor trills, smells or is too hot to touch, or anything looks unlike its picture";

interface AxisTune {
  readonly axis: Axis;
  readonly tune: LadderTune;
}

const tunesIn = ({ axes }: LadderStep): AxisTune[] =>
  AXES.flatMap((axis) => {
    const tune = axes[axis];
    return tune === undefined ? [] : [{ axis, tune }];
  });

/** The words of step `index` (from 0) of the ladder. */
export function stepWords(map: StabilityMap, index: number): StepWords {
  const steps = map.ladder?.steps ?? [];
  const tunes = tunesIn(at(steps, index));
  return {
    title: titleOf(map, steps, index),
    change: changeWords(map, index),
    look: lookWords(map, tunes),
    listen: listenWords(map, tunes),
    land: landWords(map, tunes),
  };
}

function titleOf(map: StabilityMap, steps: readonly LadderStep[], index: number): string {
  const step = at(steps, index);
  const { stage } = step;
  if (stage === "check")
    return ladderRow(map.ladder?.manoeuvres[tunesIn(step)[0]?.tune.trials[0]?.manoeuvre ?? 0]?.kind ?? "stop").title;
  if (stage === "p") return steps[index - 1] === undefined ? "Low P, low D" : "More P";
  return steps[index + 1]?.stage === "d" ? "More D" : "The starting tune";
}

/** What to fly in a step, each manoeuvre once: "sharp turn into prop wash at 120 °/s, sinking at 3.5 m/s". */
export function manoeuvreWords(map: StabilityMap, step: LadderStep): string {
  const manoeuvres = tunesIn(step).flatMap(({ tune }) =>
    tune.trials.flatMap((one) => map.ladder?.manoeuvres[one.manoeuvre] ?? []),
  );
  const phrases = manoeuvres.map(sizedTitle);
  return [...new Set(phrases)].map((one) => one.charAt(0).toLowerCase() + one.slice(1)).join("; ");
}

function sizedTitle({ title, rate, share, descent }: LadderManoeuvre): string {
  // Of a manoeuvre without a rate it is the throttle that moves less.
  const throttle = share === undefined ? "" : ` with ${percent(share)} of its throttle moves`;
  const asked = rate === 0 ? throttle : ` at ${withUnit(rate, "\u00b0/s")}`;
  return `${title}${asked}${descent === undefined ? "" : `, sinking at ${about(descent, "m/s")}`}`;
}

function worst(
  tunes: readonly AxisTune[],
  of: (measures: LadderTune["measures"]) => number | null | undefined,
): AxisTune | null {
  const value = ({ tune }: AxisTune) => of(tune.measures) ?? Number.NEGATIVE_INFINITY;
  const shown = tunes.filter(({ tune }) => of(tune.measures) != null);
  return shown.reduce<AxisTune | null>((most, one) => (most === null || value(one) > value(most) ? one : most), null);
}

const COUNT_WORDS = ["not at all", "once", "twice", "three times", "four times"];
const timesWord = (count: number): string => COUNT_WORDS[count] ?? `${toThreeDigits(count)} times`;

function lookWords(map: StabilityMap, tunes: readonly AxisTune[]): string {
  const parts = [stopWords(tunes), wobbleWords(map, tunes), kickWords(tunes)].filter((words) => words !== "");
  return parts.length === 0 ? "It holds its course." : `It ${parts.join("; in disturbed air it ")}.`;
}

function stopWords(tunes: readonly AxisTune[]): string {
  const phrases = (one: AxisTune) => {
    const { rebounds } = one.tune.measures;
    return rebounds === 0 ? "stops dead" : `swings back ${timesWord(rebounds ?? 0)} after the stop`;
  };
  return worseWords(
    tunes.filter(({ tune }) => tune.measures.rebounds != null),
    worst(tunes, ({ rebounds }) => rebounds),
    phrases,
  );
}

/** The words of the worse axis; the axis is named where the other's differ. */
function worseWords(tunes: readonly AxisTune[], worse: AxisTune | null, phrases: (one: AxisTune) => string): string {
  if (worse === null) return "";
  const words = phrases(worse);
  return tunes.every((one) => phrases(one) === words) ? words : `${words} (${worse.axis})`;
}

const WIDTH_WORDS: Readonly<Record<Swing["width"], string>> = {
  wide: "wallows",
  moderate: "rocks",
  small: "hardly leaves its course",
};
const PACE_WORDS: Readonly<Record<Swing["pace"], string>> = {
  slow: "slowly enough to count",
  brisk: "too quickly to count",
  fast: "as a quick shiver",
};

function wobbleWords(map: StabilityMap, tunes: readonly AxisTune[]): string {
  const phrases = ({ tune }: AxisTune) => {
    const { wobbleAngle, wobbleFrequency } = tune.measures;
    const { width, pace } = swingOf(wobbleAngle ?? 0, wobbleFrequency ?? null, map.limits.wobbleAngle);
    return `${WIDTH_WORDS[width]}, ${PACE_WORDS[pace]}`;
  };
  return worseWords(
    tunes.filter(({ tune }) => tune.measures.wobbleAngle != null),
    worst(tunes, ({ wobbleAngle }) => wobbleAngle),
    phrases,
  );
}

function kickWords(tunes: readonly AxisTune[]): string {
  const most = worst(tunes, ({ kick }) => kick);
  return most === null ? "" : "keeps its attitude while the throttle moves, give or take a little";
}

/** By thirds of the way to the limit of motor heating. */
function listenWords(map: StabilityMap, tunes: readonly AxisTune[]): string {
  const heat = worst(tunes, ({ heat: one }) => one)?.tune.measures.heat;
  const limit = map.limits.heat;
  if (heat == null || limit === null || limit <= 1) return "An even note, no trill after a stop.";
  const thirds = (3 * (heat - 1)) / (limit - 1);
  if (thirds < 1) return "An even note; motors no warmer than usual.";
  return thirds < 2 ? "An even note; motors a little warmer than usual." : "A slightly rough note; motors warm.";
}

/** Two swings more than predicted, but no more than the sweep's limit; what is predicted itself is no surprise. */
function landWords({ limits }: StabilityMap, tunes: readonly AxisTune[]): string {
  const rebounds = worst(tunes, ({ rebounds: count }) => count)?.tune.measures.rebounds;
  if (rebounds == null) return "it goes on rocking in calm air";
  const most = Math.max(rebounds, Math.min(rebounds + 2, limits.rebounds ?? Number.POSITIVE_INFINITY));
  return most === 0 ? "it swings back at all" : `it swings back more than ${timesWord(most)}`;
}
