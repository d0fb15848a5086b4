// What one change of a model does to its map: ground, boundary, delays, and the same tune in both.
import { at } from "../base/at.js";
import { MEASURES, type Measure } from "../base/measures.js";
import { roundToTwelveDigits } from "../map/display-units.js";
import type { AxisMap, PinnedPoint, StabilityMap, StartingTune } from "../map/format.js";
import { baselineOf } from "./baseline.js";
import type { AxisEffect, Difference, Effect, MeasureEffect, OwnStart, TuneEffect } from "./effect-format.js";
import type { Axis, ShiftAtD, ShiftLine } from "./format.js";
import { conditionShifts } from "./levels.js";
import { planOf } from "./question.js";
import { change, endOf, shiftLine } from "./shift.js";

export type Delays = NonNullable<Effect["found"]>["delayMs"];

/** Both maps are of one grid, scripts and conditions. */
export function effectOf(
  { kind, name, set }: Pick<Effect, "kind" | "name" | "set">,
  asItIs: StabilityMap,
  changed: StabilityMap,
  delayMs: Delays,
): Effect {
  const axes = { roll: axisEffect(asItIs, changed, "roll"), pitch: axisEffect(asItIs, changed, "pitch") };
  const percents = Object.values(axes).map(({ ground }) => ground.percent ?? 0);
  const mean = percents.reduce((sum, percent) => sum + percent, 0) / percents.length;
  // What goes with the thing is what having it gains.
  const gain = roundToTwelveDigits(kind === "without" ? 0 - mean : mean);
  const { format: _, ...map } = baselineOf(changed);
  return { kind, name, set, found: { delayMs, axes, gain, planDigest: planOf(changed).digest, map } };
}

/** The largest gain first, what the model does not have last; equals stay in the order of the sweep. */
export const byGain = (effects: readonly Effect[]): Effect[] =>
  [...effects].sort(
    (a, b) => (b.found?.gain ?? Number.NEGATIVE_INFINITY) - (a.found?.gain ?? Number.NEGATIVE_INFINITY) || 0,
  );

function axisEffect(asItIs: StabilityMap, changed: StabilityMap, name: Axis): AxisEffect {
  const [before, after] = [asItIs.axes[name], changed.axes[name]];
  const tolerance = 100 * planOf(asItIs).sweep.boundaryTolerance;
  const top = at(before.grid.p, before.grid.p.length - 1);
  const shift = shiftLine(before.boundary.sustained.map(endOf), after.boundary.sustained.map(endOf), top);
  const median = ({ perD }: ShiftLine) => differenceOf(medianOf(perD.flatMap(knownShift)), tolerance);
  const conditions = conditionShifts(name, asItIs, changed).map((one) => ({
    condition: one.condition,
    ...median(one),
  }));
  return {
    ground: groundDifference(before, after),
    boundary: median(shift),
    conditions,
    tune: tuneEffect(asItIs, before, after),
    start: { asItIs: ownStart(before.start), changed: ownStart(after.start) },
  };
}

/** Where an end leaves the grid, or comes into it, only a least shift is known, which no median can take. */
const knownShift = ({ state, percent }: ShiftAtD): number[] =>
  percent === null || (state !== "moved" && state !== "closed") ? [] : [percent];

/** Two ends, each bisected to the tolerance, may differ by it twice over. */
const differenceOf = (percent: number | null, tolerance: number): Difference => ({
  percent,
  seen: percent !== null && Math.abs(percent) > 2 * tolerance,
});

/** One point more or less is what a border between grid lines may do by chance. */
function groundDifference(before: AxisMap, after: AxisMap): AxisEffect["ground"] {
  const points = { asItIs: safePoints(before), changed: safePoints(after) };
  const percent = points.asItIs === 0 ? null : change(safeArea(before), safeArea(after));
  const least = points.asItIs === 0 ? 0 : 100 / points.asItIs;
  return { percent, seen: percent !== null && Math.abs(percent) > least, points };
}

const safePoints = ({ safe }: AxisMap): number => safe.flat().filter(Boolean).length;

/** Each safe point stands for its cell: half-way to its neighbours. */
function safeArea({ grid, safe }: AxisMap): number {
  const [p, d] = [cellsOf(grid.p), cellsOf(grid.d)];
  const each = safe.map((row, j) => row.reduce((sum, is, i) => sum + (is ? at(p, i) : 0), 0) * at(d, j));
  return each.reduce((sum, one) => sum + one, 0);
}

const cellsOf = (line: readonly number[]): number[] =>
  line.map((value, k) => ((line[k + 1] ?? value) - (line[k - 1] ?? value)) / 2);

function medianOf(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const [low, high] = [sorted[Math.floor((sorted.length - 1) / 2)], sorted[Math.ceil((sorted.length - 1) / 2)]];
  return low === undefined || high === undefined ? null : roundToTwelveDigits((low + high) / 2);
}

const ownStart = (start: StartingTune | null): OwnStart | null =>
  start === null ? null : { p: start.p, d: start.d, room: start.room.pUp.factor };

/** The model as it is answers at the common tune by its own start, where that is the tune, else by its pinned one. */
function tuneEffect({ limits }: StabilityMap, before: AxisMap, after: AxisMap): TuneEffect | null {
  const { pinned } = after;
  const own: Pick<PinnedPoint, "measures" | "margins" | "safe"> | null =
    before.pinned ?? (before.start === null ? null : { ...before.start, margins: before.start.margins, safe: true });
  if (pinned === undefined || own === null) return null;
  return {
    p: pinned.p,
    d: pinned.d,
    safe: { asItIs: own.safe, changed: pinned.safe },
    gainUp: { asItIs: own.margins.gainUp, changed: pinned.margins.gainUp },
    phase: { asItIs: own.margins.phase, changed: pinned.margins.phase },
    measures: MEASURES.flatMap((measure) => measureEffect(measure, limits[measure.id], own, pinned)),
  };
}

const MOVED = 1 / 10; // of the limit: less is not worth a word

function measureEffect(
  { id }: Measure,
  limit: number | null,
  own: Pick<PinnedPoint, "measures">,
  changed: Pick<PinnedPoint, "measures">,
): MeasureEffect[] {
  const [before, after] = [own.measures[id] ?? null, changed.measures[id] ?? null];
  if (limit === null || before === null || after === null) return [];
  return [{ id, asItIs: before, changed: after, seen: Math.abs(after - before) > MOVED * limit }];
}
