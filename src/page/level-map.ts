// The map under one throttle level and pack alone: every point of one axis is simulated again, in slices that keep the
// page responsive, then reduced and judged as the map itself was.
import { at } from "../base/at.js";
import { MEASURE_IDS, type MeasureId } from "../base/measures.js";
import { NOBODY } from "../map/decider.js";
import type { AxisMap, Grid, GridLines } from "../map/format.js";
import { sustains, type TrialTable } from "../map/trials.js";
import { type Judgement, judge, type Limits } from "../map/verdict.js";
import { surroundingsOn } from "../map/way-out.js";
import { type WorstPoint, worstPoint } from "../map/worst.js";
import type { Variant } from "../plan/plan.js";
import { trialWork } from "../run/work.js";
import type { Axis } from "../words/axes.js";
import { SLICE } from "./cost.js";
import { noDecider, type TheoryDecider } from "./level-theory.js";
import type { PageMapAxis } from "./page-map.js";
import type { Level, Simulator } from "./simulator.js";

/** As an axis of the page, whose grid lines it shares. */
export type LevelAxis = Omit<PageMapAxis, "grid">;

export interface Progress {
  readonly done: number;
  readonly of: number;
}

export interface Yielding {
  /** Called between slices; resolves after the browser has handled pending input. */
  readonly pause: () => Promise<void>;
  readonly onProgress: (progress: Progress) => void;
  /** Whether the answer is still wanted. */
  readonly isCurrent: () => boolean;
}

/** The axis under the level; null if the result is no longer wanted. */
export async function levelMap(
  simulator: Simulator,
  axis: Axis,
  level: Level,
  limits: Limits,
  yielding: Yielding,
  theoryDecider: TheoryDecider = noDecider,
): Promise<LevelAxis | null> {
  const variants = level.variants.filter((variant) => variant.axis === axis);
  const tables: VariantGrid[] = [];
  for (const variant of variants) {
    const table = await simulatedGrid(simulator, variant, yielding, {
      before: tables.length,
      variants: variants.length,
    });
    if (table === null) return null;
    tables.push({ variant: variant.index, table });
  }
  return reduceLevel(simulator.grid[axis], tables, limits, theoryDecider);
}

interface VariantGrid {
  readonly variant: number;
  readonly table: TrialTable;
}

async function simulatedGrid(
  simulator: Simulator,
  variant: Variant,
  { pause, onProgress, isCurrent }: Yielding,
  { before, variants }: { before: number; variants: number },
): Promise<TrialTable | null> {
  const { p, d } = simulator.grid[variant.axis];
  const count = p.length * d.length;
  const width = MEASURE_IDS.length;
  const table = {
    values: new Float64Array(count * width),
    absent: new Uint8Array(count * width),
    outcome: new Uint8Array(count),
  };
  const points = Math.max(1, Math.min(p.length, Math.floor(SLICE / trialWork(simulator.plan, variant))));
  for (let from = 0; from < count; ) {
    await pause();
    if (!isCurrent()) return null;
    const [row, column] = [Math.floor(from / p.length), from % p.length];
    const line = Float64Array.from(p.slice(column, column + points));
    const dLine = new Float64Array(line.length).fill(at(d, row));
    const { values, absent, outcome } = simulator.run({ variant: variant.index, p: line, d: dLine });
    table.values.set(values, from * width);
    table.absent.set(absent, from * width);
    table.outcome.set(outcome, from);
    from += line.length;
    onProgress({ done: before * count + from, of: variants * count });
  }
  return table;
}

function reduceLevel(
  { p, d }: GridLines,
  tables: readonly VariantGrid[],
  limits: Limits,
  theoryDecider: TheoryDecider,
): LevelAxis {
  const places = Array.from({ length: p.length * d.length }, (_, row) => row);
  const worst = places.map((row) => worstPoint(tables.map(({ variant, table }) => ({ variant, table, row }))));
  const sustainedBy = places.map(
    (row) =>
      tables.find(({ table }) => sustains(table, row))?.variant ??
      theoryDecider(Math.floor(row / p.length), row % p.length),
  );
  const around = surroundingsOn(p.length, worst, sustainedBy);
  const points = places.map((row): PointVerdict => {
    const judgement = judge(at(worst, row), sustainedBy[row] ?? NOBODY, limits, around(row));
    return { worst: at(worst, row), judgement };
  });
  const grid = <T>(of: (point: PointVerdict) => T): Grid<T> =>
    d.map((_, i) => p.map((__, j) => of(at(points, i * p.length + j))));
  const perMeasure = <T>(of: (id: MeasureId) => T) => Object.fromEntries(MEASURE_IDS.map((id) => [id, of(id)]));
  return {
    verdict: grid(({ judgement }) => judgement.verdict),
    decidedBy: grid(({ judgement }) => judgement.decidedBy),
    safe: grid(() => false),
    measures: perMeasure((id) => grid((point) => point.worst[id].value)) as AxisMap["measures"],
    absent: perMeasure((id) => grid((point) => point.worst[id].absent)) as AxisMap["absent"],
    margins: null,
    boundary: { sustained: [] },
  };
}

interface PointVerdict {
  readonly worst: WorstPoint;
  readonly judgement: Judgement;
}
