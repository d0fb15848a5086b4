// What the strips over yaw's P and over I say, in words: the finding as a title, limits as clauses, gains as they are set.
import { STRIP_MEASURES, type StripKind } from "../base/strip-measures.js";
import type { StabilityMap } from "../map/format.js";
import { ownText } from "../map/gain-text.js";
import { ownScale } from "../map/own-scale.js";
import type { Strip, StripLimit } from "../map/strip-format.js";
import { wantedMargins } from "../map/wanted-margins.js";
import { AXES, AXIS_TITLES, type Axis } from "./axes.js";
import { limitingCaseWords, lowerFirst } from "./limit-words.js";
import { toThreeDigits, withUnit } from "./numbers.js";
import { unitLabel } from "./units.js";

/** A strip of a map with its place and its name. */
export interface NamedStrip {
  readonly kind: StripKind;
  /** "yaw", "roll", "pitch". */
  readonly axis: Axis | "yaw";
  /** "Yaw P", "Roll I". */
  readonly title: string;
  readonly strip: Strip;
}

/** Of P of yaw, or of an axis's I. */
export const stripTitle = (axis: Axis | "yaw"): string => (axis === "yaw" ? "Yaw P" : `${AXIS_TITLES[axis]} I`);

/** In reading order; none where the map's sweep asked for none. */
export function stripsOf({ strips }: StabilityMap): NamedStrip[] {
  const yaw: NamedStrip[] =
    strips?.yaw === undefined ? [] : [{ kind: "yaw", axis: "yaw", title: stripTitle("yaw"), strip: strips.yaw }];
  const i = AXES.flatMap((axis): NamedStrip[] => {
    const strip = strips?.i?.[axis];
    return strip === undefined ? [] : [{ kind: "i", axis, title: stripTitle(axis), strip }];
  });
  return [...yaw, ...i];
}

/** I of an axis that has a starting tune, as it is to be set: the model's own, or what its strip puts in its place. */
export interface ChosenI {
  readonly i: number; // display units
  readonly range: string | null; // what passes, as it is set
  readonly replaced: boolean;
}

export function chosenI({ axes, strips }: StabilityMap, axis: Axis): ChosenI | null {
  const { start } = axes[axis];
  if (start === null) return null;
  const strip = strips?.i?.[axis];
  if (strip === undefined) return { i: start.i, range: null, replaced: false };
  const { choice, declared, range } = strip;
  const i = choice ?? declared;
  return {
    i,
    range: range === null ? null : `${stripGain(strip, range.from)} to ${stripGain(strip, range.to)}`,
    replaced: i !== declared,
  };
}

/** "yaw P 30 and I 30 as in the model file, P judged", or what takes the place of a P that fails; null where the sweep judged none. */
export function judgedYawWords(map: StabilityMap): string | null {
  const yaw = map.strips?.yaw;
  if (yaw === undefined) return null;
  const p = (gain: number) => `P ${stripGain(yaw, gain)}`;
  const i = `I ${yawI(map, yaw.i)} as in the model file`;
  if (yaw.choice === null) return `yaw's ${p(yaw.declared)} fails and no other passes: sweep again before you fly`;
  if (yaw.choice !== yaw.declared)
    return `yaw ${p(yaw.choice)} instead of the model file's ${stripGain(yaw, yaw.declared)}, which fails; yaw ${i}`;
  return `yaw ${p(yaw.declared)}, judged to pass, and ${i}`;
}

/** Yaw's I, which no strip judges: the controller's own number where the model says what one is worth, else the map's. */
export function yawI(map: StabilityMap, value: number): string {
  const own = ownScale(map)?.yaw?.i ?? null;
  return own === null ? toThreeDigits(value) : ownText(own * value);
}

/** A gain to three digits: the controller's own number, as it is typed, where the model says what one is worth, else the map's. */
export const stripGain = ({ oneUnit }: Pick<Strip, "oneUnit">, gain: number): string =>
  oneUnit === null ? toThreeDigits(gain) : ownText(Number((gain / oneUnit).toPrecision(3)));

/** "Gains in % per 100 °/s.", or what one of the controller's own is worth. */
export function stripUnitWords({ units }: StabilityMap, { kind, strip }: NamedStrip): string {
  const unit = unitLabel(kind === "yaw" ? units.p : units.i);
  return strip.oneUnit === null
    ? `Gains in ${unit}.`
    : `Gains as the controller has them; one is ${toThreeDigits(strip.oneUnit)}\u00a0${unit}.`;
}

type Clause = (limit: string) => string;

/** What happens beyond a limit, as a clause. */
const BEYOND: Readonly<Record<StripKind, Readonly<Record<string, Clause>>>> = {
  yaw: {
    rise: (limit) => `a turn takes over ${limit} to stop`,
    overshoot: (limit) => `the nose swings back over ${limit} after a turn`,
    settling: (limit) => `a turn takes over ${limit} to settle`,
    kick: (limit) => `the nose swings over ${limit} in a punch-out`,
    limited: (limit) => `the motors have nothing left for over ${limit} of a manoeuvre`,
    heat: (limit) => `the motors heat over ${limit} times as much as without it`,
    commandNoise: (limit) => `noise takes over ${limit} of the motors' range`,
  },
  i: {
    drift: (limit) => `over ${limit} of a gust's drift is left`,
    overshoot: (limit) => `it swings back over ${limit} after a stop`,
    settling: (limit) => `a stop takes over ${limit} to settle`,
  },
};

/** "the gain margin is under 6 dB", "a turn takes over 300 ms to stop". */
export function beyondWords(map: StabilityMap, { kind, strip }: NamedStrip, { limit }: StripLimit): string {
  const margins = wantedMargins(map);
  if (limit === "sustained oscillation") return "the oscillation does not die out";
  if (limit === "gain margin") return `the gain margin is under ${withUnit(margins.gain, "dB")}`;
  if (limit === "phase margin") return `the phase margin is under ${withUnit(margins.phase, "\u00b0")}`;
  const measure = STRIP_MEASURES[kind].find(({ id }) => id === limit);
  const value = strip.limits[limit] ?? null;
  const clause = BEYOND[kind][limit];
  if (measure === undefined || clause === undefined) return lowerFirst(limit);
  return clause(value === null ? "its limit" : withUnit(value, unitLabel(measure.unit)));
}

/** "Yaw P 30 passes; above 62.2 the gain margin is under 6 dB": the finding in one line. */
export function stripFinding(map: StabilityMap, named: NamedStrip): string {
  const { title, strip } = named;
  const { declared, choice, range, fails } = strip;
  const own = `${title} ${stripGain(strip, declared)}`;
  const failure = fails[strip.gains.indexOf(declared)] ?? null;
  const why = failure === null ? "" : beyondWords(map, named, failure);
  if (choice === null || range === null) return `No ${title} of the strip passes: at the model's own ${why}`;
  if (choice !== declared)
    return `${title} ${stripGain(strip, choice)} instead of the model's ${stripGain(strip, declared)}, at which ${why}`;
  return `${own} passes${range.above === null ? "" : `; above ${stripGain(strip, range.to)} ${beyondWords(map, named, range.above)}`}`;
}

/** Both ends of the range with what ends it and where that was found. */
export function stripRangeWords(map: StabilityMap, named: NamedStrip): string {
  const { strip } = named;
  const { range } = strip;
  if (range === null) return "";
  const side = (word: string, gain: number, limit: StripLimit | null) =>
    limit === null
      ? []
      : [`${word} ${stripGain(strip, gain)} ${beyondWords(map, named, limit)}${decidedWords(map, named, limit)}`];
  const ends = [...side("below", range.from, range.below), ...side("above", range.to, range.above)];
  return `${named.title} may lie anywhere in ${stripGain(strip, range.from)} to ${stripGain(strip, range.to)}${ends.length === 0 ? "" : `: ${ends.join(", ")}`}.`;
}

function decidedWords(map: StabilityMap, { strip, axis }: NamedStrip, { decidedBy }: StripLimit): string {
  if (decidedBy === null) return "";
  const title = strip.titles[decidedBy.script];
  const variants =
    title === undefined
      ? map.variants
      : [{ ...decidedBy, title, kind: "", axis: axis === "yaw" ? ("roll" as const) : axis }];
  return ` (${lowerFirst(limitingCaseWords({ variants }, decidedBy))})`;
}
