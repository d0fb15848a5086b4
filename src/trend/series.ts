// What is followed over the stages of a model: the boundary at a few D and at each level, safe ground, the starting tune, its margins and
// its measures that depend on the seed, the gains that strips say to take and how far up these pass.
import { canonicalJson } from "../base/canonical.js";
import { MEASURE_IDS } from "../base/measures.js";
import type { Axis } from "../compare/format.js";
import type { AxisRecord, SeededValue, StripRecord } from "./format.js";
import { moveSize, moveUnit } from "./moves.js";
import { MOST_D } from "./shape.js";
import type { FollowedId, Series, Stage, Value } from "./trend.js";

type Line = Omit<Series, "scatter" | "unit">;

export function seriesOf(name: Axis, stages: readonly Stage[]): Series[] {
  const axes = stages.map((stage) => stage.axes[name]);
  const lines: Line[] = [
    ...followedD(axes).map(
      (d): Line => ({ measure: "boundary", d, values: axes.map((axis) => boundaryAt(axis, d)), tops: topsOf(axes) }),
    ),
    ...levelLines(axes),
    { measure: "safeShare", values: onSameLines(axes, ({ safeShare }) => 100 * safeShare) },
    atStart("startP", axes, ({ p }) => p),
    atStart("startD", axes, ({ d }) => d),
    atStart("gainUp", axes, ({ margins }) => margins.gainUp),
    atStart("phase", axes, ({ margins }) => margins.phase),
    ...MEASURE_IDS.flatMap((id) => seededLine(id, axes)),
    ...stripLines(axes.map(({ i }) => i)),
  ];
  return lines.map((line) => seriesFrom(line, stages));
}

/** None where no map judged yaw's P. */
export const yawSeries = (stages: readonly Stage[]): Series[] =>
  stripLines(stages.map(({ yaw }) => yaw)).map((line) => seriesFrom(line, stages));

const seriesFrom = (line: Line, stages: readonly Stage[]): Series => ({
  ...line,
  unit: moveUnit(line.measure),
  scatter: scatterOf(line, stages),
});

/** Of the strips with the limits and scripts that most have. */
function stripLines(strips: readonly (StripRecord | undefined)[]): Line[] {
  const asked = mostCommon(strips.flatMap((strip) => strip?.asked ?? []));
  if (asked === undefined) return [];
  const each = (read: (strip: StripRecord) => Value) =>
    strips.map((strip) => (strip === undefined || strip.asked !== asked ? null : read(strip)));
  return [
    { measure: "stripChoice", values: each(({ choice }) => choice ?? "none") },
    { measure: "stripEnd", values: each(({ to }) => to) },
  ];
}

/** The first of those that are there most often. */
function mostCommon(keys: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0];
}

/**
 * The D at which most stages know the boundary, those with safe ground in any of them: further out nobody chooses gains, and the
 * boundary folds back. Of stages on lines of their own, none.
 */
function followedD(axes: readonly AxisRecord[]): number[] {
  const counts = new Map<number, { count: number; safe: boolean }>();
  for (const { d, safe } of axes)
    for (const [k, value] of d.entries()) {
      const { count, safe: before } = counts.get(value) ?? { count: 0, safe: false };
      counts.set(value, { count: count + 1, safe: before || safe[k] === true });
    }
  const shared = [...counts].filter(([, { count }]) => count > 1 || axes.length === 1);
  const withGround = shared.filter(([, { safe }]) => safe);
  return (withGround.length > 0 ? withGround : shared)
    .sort(([a, { count }], [b, { count: other }]) => other - count || a - b)
    .slice(0, MOST_D)
    .map(([d]) => d)
    .sort((a, b) => a - b);
}

function boundaryAt({ d, boundary }: AxisRecord, wanted: number): Value {
  return boundary[d.indexOf(wanted)] ?? null;
}

const topsOf = (axes: readonly AxisRecord[]): number[] => axes.map(({ top }) => top);

/** Each level at the middle one of the D that are followed. */
function levelLines(axes: readonly AxisRecord[]): Line[] {
  const all = followedD(axes);
  const d = all[all.length >> 1];
  if (d === undefined) return [];
  const levels = new Map<string, NonNullable<Line["level"]>>();
  for (const { levels: own } of axes)
    for (const { throttle, condition } of own)
      levels.set(canonicalJson([throttle, condition]), { throttle, condition });
  if (levels.size < 2) return []; // one level alone is the boundary itself
  return [...levels.values()].map((level) => ({
    measure: "levels",
    d,
    level,
    tops: topsOf(axes),
    values: axes.map((axis) => {
      const own = axis.levels.find(
        ({ throttle, condition }) => throttle === level.throttle && condition === level.condition,
      );
      return own?.boundary[axis.d.indexOf(d)] ?? null;
    }),
  }));
}

/** A share of points is one of the grid on which most were counted. */
function onSameLines(axes: readonly AxisRecord[], read: (axis: AxisRecord) => number): Value[] {
  const most = mostCommon(axes.map(({ lines }) => lines));
  return axes.map((axis) => (axis.lines === most ? read(axis) : null));
}

/** An end that no gain meets lies above any. */
const atStart = (
  measure: FollowedId,
  axes: readonly AxisRecord[],
  read: (start: NonNullable<AxisRecord["start"]>) => number | null,
): Line => ({ measure, values: axes.map(({ start }) => (start === null ? "none" : (read(start) ?? "above"))) });

/** Of its value: a measure that seeds move by less is as good as still, and tells no more than the tune does. */
const LEAST_SCATTER = 0.02;

function seededLine(id: (typeof MEASURE_IDS)[number], axes: readonly AxisRecord[]): Line[] {
  const found = axes.map(({ start }) => start?.seeded[id] ?? null);
  const moved = ({ value, range: [low, high] }: SeededValue) => high - low > LEAST_SCATTER * Math.abs(value);
  if (!found.some((one) => one !== null && moved(one))) return [];
  return [
    { measure: id, values: found.map((one) => one?.value ?? null), ranges: found.map((one) => one?.range ?? null) },
  ];
}

/** The furthest that one craft under one program moves from seed to seed. */
function scatterOf({ measure, values, ranges }: Line, stages: readonly Stage[]): number | null {
  const unit = moveUnit(measure);
  const own = (ranges ?? []).flatMap((range) => (range === null ? [] : [moveSize(unit, range[0], range[1]) ?? 0]));
  const groups = new Map<string, { readonly seeds: Set<number>; low: number; high: number }>();
  for (const [k, { craft, product, seed }] of stages.entries()) {
    const value = values[k];
    if (typeof value !== "number") continue;
    const group = groups.get(`${craft} ${product}`) ?? { seeds: new Set<number>(), low: value, high: value };
    group.seeds.add(seed);
    group.low = Math.min(group.low, value);
    group.high = Math.max(group.high, value);
    groups.set(`${craft} ${product}`, group);
  }
  const several = [...groups.values()].filter(({ seeds }) => seeds.size > 1);
  const apart = several.map(({ low, high }) => moveSize(unit, low, high) ?? 0);
  return own.length + apart.length === 0 ? null : Math.max(...own, ...apart);
}
