// Where a measure stepped, where it creeps, and what did it. Maps have no noise: a move beyond the width to which boundaries are narrowed
// is a step. Only between two seeds, and in measures that chance moves, it must be larger than what seeds alone do.
import { at } from "../base/at.js";
import { mannKendall } from "../base/mann-kendall.js";
import type { EndOfRange } from "./format.js";
import { moreIsBetter, moveSize, rises, toleranceIn } from "./moves.js";
import type { Cause, Creep, FollowedAxis, Move, Series, Stage, Step, Trend } from "./trend.js";

const AXES: readonly FollowedAxis[] = ["roll", "pitch", "yaw"];
/** Rarer by chance than this, an order of values is said to rise or fall. */
const CHANCE = 0.05;
const SHORTEST = 5; // stages of a creep: fewer are never so rare
/** Of a longer stretch every n-th stage is looked at: all pairs of them are compared. */
const LONGEST = 128;

type SeriesByAxis = Trend["axes"];

export function stepsOf(stages: readonly Stage[], axes: SeriesByAxis): Step[] {
  return stages.flatMap((stage, index) => {
    const { before } = stage;
    if (before === null) return [];
    const moves = AXES.flatMap((axis) =>
      axes[axis].flatMap((line, series) => moveAt(axis, line, series, stages, index) ?? []),
    );
    return moves.length === 0 ? [] : [{ stage: index, causes: causesOf(at(stages, before), stage), moves }];
  });
}

/** Stages under another seed than the one before, where nothing says how far seeds move results. */
export function unjudgedStages(stages: readonly Stage[], axes: SeriesByAxis): number[] {
  return [...stages.keys()].filter((index) => {
    const { before, seed } = at(stages, index);
    if (before === null || at(stages, before).seed === seed) return false;
    return AXES.some((axis) => axes[axis].some(({ scatter }) => scatter === null));
  });
}

function moveAt(
  axis: FollowedAxis,
  line: Series,
  series: number,
  stages: readonly Stage[],
  index: number,
): Move | null {
  const { before } = at(stages, index);
  if (before === null) return null;
  const [from, to] = [at(line.values, before), at(line.values, index)];
  if (from === null || to === null || from === to) return null;
  const least = leastStep(line, at(stages, before), at(stages, index));
  const number = (value: EndOfRange, stage: number) => (value === "above" ? (line.tops?.[stage] ?? value) : value);
  const size = moveSize(line.unit, number(from, before), number(to, index));
  if (least === null || (size !== null && !(Math.abs(size) > least))) return null;
  const open = size !== null && (from === "above" || to === "above");
  return { axis, series, from, to, size, least: open, better: isBetter(line, from, to) };
}

/** What a step must exceed, in the unit of the move; null: nobody can say. */
function leastStep({ unit, ranges, scatter }: Series, before: Stage, stage: Stage): number | null {
  const tolerance = toleranceIn(unit, Math.max(before.tolerance, stage.tolerance));
  const byChance = ranges !== undefined || before.seed !== stage.seed;
  if (!byChance) return tolerance;
  return scatter === null ? null : tolerance + scatter;
}

function isBetter({ measure }: Series, from: EndOfRange, to: EndOfRange): boolean | null {
  const [up, more] = [rises(from, to), moreIsBetter(measure)];
  if ((measure.startsWith("start") || measure === "stripChoice") && (from === "none" || to === "none"))
    return from === "none"; // a gain to take is lost or found
  return up === null || more === null ? null : up === more;
}

function causesOf(before: Stage, stage: Stage): Cause[] {
  const causes: Cause[] = [];
  if (before.version !== stage.version) causes.push("version");
  else if (before.craft !== stage.craft) causes.push("edit");
  if (before.product !== stage.product) causes.push("program");
  if (before.seed !== stage.seed) causes.push("seed");
  return causes.length === 0 ? ["lines"] : causes;
}

/** Stretches without a step over which a measure rose or fell all the same, further than tolerance and seeds explain. */
export function creepsOf(stages: readonly Stage[], axes: SeriesByAxis): Creep[] {
  return AXES.flatMap((axis) =>
    axes[axis].flatMap((line, series) =>
      stretchesOf(axis, line, series, stages).flatMap((stretch) => creepIn(axis, line, series, stages, stretch) ?? []),
    ),
  );
}

/** First and last stage of each stretch of numbers without a step. */
function stretchesOf(
  axis: FollowedAxis,
  line: Series,
  series: number,
  stages: readonly Stage[],
): (readonly [number, number])[] {
  const stretches: (readonly [number, number])[] = [];
  let from: number | null = null;
  for (const [index, value] of line.values.entries()) {
    const usable = typeof value === "number";
    if (from !== null && (!usable || moveAt(axis, line, series, stages, index) !== null)) {
      stretches.push([from, index - 1]);
      from = null;
    }
    if (usable) from ??= index;
  }
  return from === null ? stretches : [...stretches, [from, line.values.length - 1]];
}

function creepIn(
  axis: FollowedAxis,
  line: Series,
  series: number,
  stages: readonly Stage[],
  [first, last]: readonly [number, number],
): Creep | null {
  if (last - first + 1 < SHORTEST) return null;
  const every = Math.ceil((last - first + 1) / LONGEST);
  const values = (line.values.slice(first, last + 1) as number[]).filter((_, k) => k % every === 0);
  const { chance, slope } = mannKendall(values);
  if (!(chance < CHANCE)) return null;
  const from = at(values, 0);
  const to = from + slope * (values.length - 1);
  const size = moveSize(line.unit, from, to);
  const tolerance = Math.max(...stages.slice(first, last + 1).map((stage) => stage.tolerance));
  if (size === null || !(Math.abs(size) > toleranceIn(line.unit, tolerance) + (line.scatter ?? 0))) return null;
  return {
    axis,
    series,
    from,
    to,
    size,
    least: false,
    better: isBetter(line, from, to),
    stages: [first, last],
    chance,
  };
}
