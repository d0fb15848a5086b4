// Steps and creeps of a trend as a reader reads them.
import { at } from "../base/at.js";
import { measureOf } from "../base/measures.js";
import { GAIN_UNITS } from "../map/display-units.js";
import type { Cause, Creep, FollowedAxis, FollowedId, Move, Series, Stage, Step, Trend } from "../trend/trend.js";
import { AXES, AXIS_TITLES } from "./axes.js";
import { signed } from "./drift-words.js";
import { capital, lowerFirst } from "./limit-words.js";
import { count, toThreeDigits } from "./numbers.js";
import { unitLabel } from "./units.js";

const FOLLOWED: Readonly<Partial<Record<FollowedId, readonly [title: string, unit: string]>>> = {
  boundary: ["Sustained boundary", `P, ${unitLabel(GAIN_UNITS.p)}`],
  levels: ["Boundary by level", `P, ${unitLabel(GAIN_UNITS.p)}`],
  safeShare: ["Safe ground", "share of the points, %"],
  startP: ["Starting tune, P", unitLabel(GAIN_UNITS.p)],
  startD: ["Starting tune, D", unitLabel(GAIN_UNITS.d)],
  gainUp: ["Gain margin up, at the start", "dB"],
  phase: ["Phase margin, at the start", "degrees"],
};

export const FOLLOWED_TITLES: Readonly<Record<FollowedAxis, string>> = { ...AXIS_TITLES, yaw: "Yaw" };

/** Roll, pitch, and yaw where any map judged it. */
export const followedAxes = ({ axes }: Trend): readonly FollowedAxis[] =>
  axes.yaw.length === 0 ? AXES : [...AXES, "yaw"];

/** What a strip on the axis is over. */
const stripLetter = (axis: FollowedAxis): "P" | "I" => (axis === "yaw" ? "P" : "I");

function stripWords(measure: FollowedId, axis: FollowedAxis): string | null {
  if (measure === "stripChoice") return `${stripLetter(axis)} to take`;
  return measure === "stripEnd" ? `upper end of ${stripLetter(axis)} that passes` : null;
}

/** A measure's title and the unit of its axis. */
export function followedWords(
  measure: FollowedId,
  axis: FollowedAxis,
): { readonly title: string; readonly unit: string } {
  const strip = stripWords(measure, axis);
  if (strip !== null) return { title: capital(strip), unit: unitLabel(GAIN_UNITS[axis === "yaw" ? "p" : "i"]) };
  const known = FOLLOWED[measure];
  if (known !== undefined) return { title: known[0], unit: known[1] };
  const { title, unit } = measureOf(measure as Parameters<typeof measureOf>[0]);
  return { title: `${title}, at the start`, unit: unitLabel(unit) };
}

/** What one line of a measure is: "D 1.2", "70 %, tired pack"; "" of one that stands alone. */
export function lineWords({ d, level }: Series): string {
  if (level !== undefined) {
    const { throttle, condition } = level;
    return `${throttle === "hover" ? "hover" : `${toThreeDigits(throttle)}\u00a0%`}, ${condition}`;
  }
  return d === undefined ? "" : `D ${toThreeDigits(d)}`;
}

const MOVE_UNITS = { "%": "\u00a0%", dB: "\u00a0dB", deg: "°" } as const;

/** "−12.3 %", "+0.8 dB"; "gone" and "back" where a side is no number. */
export function sizeWords({ unit }: Pick<Series, "unit">, { from, to, size }: Move): string {
  if (size !== null) return `${signed(size)}${MOVE_UNITS[unit]}`;
  if (to === "none") return "gone";
  if (from === "none") return "back";
  return to === "above" || from === 0 ? "up" : "down";
}

/** "falls 12.3 %", "rises at least 0.8 dB"; "vanishes", "is back" where a side is no number. */
function verbWords({ unit, measure }: Series, { from, to, size, least }: Move): string {
  if (size !== null)
    return `${size < 0 ? "falls" : "rises"} ${least ? "at least " : ""}${toThreeDigits(Math.abs(size))}${MOVE_UNITS[unit]}`;
  if (to === "none" && measure.startsWith("strip")) return "vanishes, no gain passes any more";
  if (to === "none") return "vanishes, no P is stable any more,";
  if (from === "none") return "is back";
  return to === "above" || from === 0 ? "rises" : "falls";
}

const seriesAt = ({ axes }: Trend, { axis, series }: Pick<Move, "axis" | "series">): Series => at(axes[axis], series);

/** How far a move goes, for comparing moves of one measure: what is no number goes furthest. */
const extent = ({ size }: Move): number => (size === null ? Number.POSITIVE_INFINITY : Math.abs(size));

const furthest = (moves: readonly Move[]): Move | null =>
  moves.reduce<Move | null>((most, move) => (most === null || extent(move) > extent(most) ? move : most), null);

/** A phrase, and whether the craft is better for it; null: neither. */
export interface Moved {
  readonly text: string;
  readonly better: boolean | null;
}

/** The furthest for the worse, or else the furthest of all. */
function gravest(moves: readonly Move[]): Move | null {
  const worse = moves.filter(({ better }) => better === false);
  return furthest(worse.length > 0 ? worse : moves);
}

/** What a step moved on one axis, one phrase a measure; of a boundary the line that moved furthest. */
export function movedWords(trend: Trend, step: Step, axis: FollowedAxis): Moved[] {
  const moves = step.moves.filter((move) => move.axis === axis);
  const of = (...measures: FollowedId[]) => moves.filter((move) => measures.includes(seriesAt(trend, move).measure));
  const start = of("startP")[0];
  const ground = () => phrases(trend, of("boundary", "levels", "safeShare"));
  if (start?.to === "none") return [...ground(), { text: "no starting tune any more", better: false }];
  if (start?.from === "none") return [...ground(), { text: "a starting tune again", better: true }];
  return phrases(trend, moves);
}

function phrases(trend: Trend, moves: readonly Move[]): Moved[] {
  const measures = [...new Set(moves.map((move) => seriesAt(trend, move).measure))];
  return measures.flatMap((measure) => {
    const most = furthest(moves.filter((move) => seriesAt(trend, move).measure === measure));
    return most === null ? [] : [{ text: moveWords(trend, most), better: most.better }];
  });
}

const SHORT: Readonly<Partial<Record<FollowedId, string>>> = {
  boundary: "boundary",
  levels: "boundary",
  safeShare: "safe ground",
  startP: "start P",
  startD: "start D",
  gainUp: "gain margin",
  phase: "phase margin",
};

/** "boundary falls 12.3 % at D 1.2", "safe ground falls 8 %". */
function moveWords(trend: Trend, move: Move): string {
  const series = seriesAt(trend, move);
  const name =
    stripWords(series.measure, move.axis) ??
    SHORT[series.measure] ??
    `${lowerFirst(measureOf(series.measure as never).title)} at the start`;
  const place = lineWords(series);
  return `${name} ${verbWords(series, move)}${place === "" ? "" : ` at ${place}`}`;
}

/** Who did it: "r2", "r2, edited", "gainscape 0.2.0". */
export function causeWords({ stages }: Trend, { stage, causes }: Step): string {
  const { version, product, seed } = at(stages, stage);
  const words: Readonly<Record<Cause, string>> = {
    version,
    edit: `${version}, edited`,
    program: `gainscape ${product}`,
    seed: `seed ${seed}`,
    lines: `${version}, on other lines or tails`,
  };
  return causes.map((cause) => words[cause]).join(" and ");
}

/** The day of a date, as it was written. */
export const dayOf = (date: string): string => date.slice(0, 10);

/** "2026-06-01", "2026-06-01 to 2026-06-30". */
export function datesWords({ first, last }: Pick<Stage, "first" | "last">): string {
  const [from, to] = [dayOf(first), dayOf(last)];
  return from === to ? from : `${from} to ${to}`;
}

/** The step to name first, by its boundary: the deepest fall, or else the highest rise; else the first step of all. */
function gravestStep(trend: Trend): { readonly step: Step; readonly move: Move } | null {
  const all = trend.steps.flatMap((step) => step.moves.map((move) => ({ step, move })));
  const bounds = all.filter(({ move }) => seriesAt(trend, move).measure === "boundary");
  const most = gravest(bounds.map(({ move }) => move));
  return all.find(({ move }) => move === (most ?? all[0]?.move)) ?? null;
}

/** The gravest move of one measure on an axis, and who did it: what its chart is to be read for. */
export function measureFinding(trend: Trend, axis: FollowedAxis, measure: FollowedId): string {
  const all = trend.steps.flatMap((step) => step.moves.map((move) => ({ step, move })));
  const own = all.filter(({ move }) => move.axis === axis && seriesAt(trend, move).measure === measure);
  const most = gravest(own.map(({ move }) => move));
  const found = own.find(({ move }) => move === most);
  if (found === undefined) return "no step";
  return `${causeWords(trend, found.step)}: ${moveWords(trend, found.move)}`;
}

/** What a trend says, as one line. */
export function findingWords(trend: Trend): string {
  const { airframe, stages, steps, creeps } = trend;
  const found = gravestStep(trend);
  if (found !== null) {
    const { step, move } = found;
    const more = steps.length === 1 ? "" : `, the largest of ${count(steps.length)} steps`;
    const since = dayOf(at(stages, step.stage).first);
    return `${airframe} ${causeWords(trend, step)}: ${move.axis} ${moveWords(trend, move)} since ${since}${more}`;
  }
  const [creep] = creeps;
  if (creep !== undefined)
    return `${airframe} creeps: ${creep.axis} ${moveWords(trend, creep)} over ${count(creep.stages[1] - creep.stages[0] + 1)} changes`;
  return stages.length === 1
    ? `${airframe} ${at(stages, 0).version}: one map, nothing to compare it with`
    : `${airframe}: nothing stepped and nothing creeps`;
}

/** "roll phase margin falls 2.1° from r2 (2026-05-01) to r9 (2026-09-01)". */
export function creepWords(trend: Trend, creep: Creep): string {
  const [first, last] = creep.stages.map((stage) => at(trend.stages, stage));
  const end = (stage: Stage | undefined) => `${stage?.version} (${dayOf(stage?.first ?? "")})`;
  return `${creep.axis} ${moveWords(trend, creep)} from ${end(first)} to ${end(last)}: chance alone orders values so in ${chanceWords(creep.chance)}`;
}

const chanceWords = (chance: number): string =>
  chance < 0.001 ? "under 1 of 1000 cases" : `${toThreeDigits(Number((1000 * chance).toPrecision(2)))} of 1000 cases`;

/** "5 maps in 12 records, 2026-06-01 to 2026-06-30; asked by nightly". */
export function extentWords({ stages, records, sweeps }: Trend): string {
  const dates = stages.flatMap(({ first, last }) => [first, last]).sort((a, b) => (a < b ? -1 : 1));
  const span = datesWords({ first: dates[0] ?? "", last: dates.at(-1) ?? "" });
  const maps = stages.length === 1 ? "1 map" : `${count(stages.length)} maps`;
  const lines = records === 1 ? "1 record" : `${count(records)} records`;
  return `${maps} in ${lines}, ${span}; asked by ${sweeps.join(", ")}`;
}

/** What stands under every trend that cannot be judged throughout; null where it can. */
export function unjudgedStagesWords({ stages, unjudged }: Trend): string | null {
  if (unjudged.length === 0) return null;
  const names = unjudged.map((stage) => `${at(stages, stage).version} (seed ${at(stages, stage).seed})`).join(", ");
  return `Under another seed than the map before: ${names}. What seeds alone move is not known: record one version under two seeds.`;
}

/** Where each version has lines of its own, the boundary has no D in common. */
export function ownLinesWords(trend: Trend): string | null {
  const own = AXES.filter((axis) => !trend.axes[axis].some(({ measure }) => measure === "boundary"));
  return own.length === 0
    ? null
    : `The boundary of ${own.join(" and ")} is not followed: each map has lines of D of its own (grid auto). A sweep with lines in its grid, or a gate, which puts all on the baseline's lines, has them in common.`;
}
