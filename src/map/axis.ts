// All trials of one axis reduced: worst cases, boundaries, margins, verdicts, safe region and starting tune, SI.
import type { Plan, Variant } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { isPlainNudge } from "./agreement.js";
import { commonIntervals, findBoundaries, firstToEnd, type RowBoundary, type VariantBoundary } from "./boundary.js";
import { cautious, objector } from "./cautious.js";
import { type Field, fieldOf, tightest } from "./field.js";
import type { GridTheory } from "./grid-theory.js";
import type { AxisTheory, PointMargins } from "./margins.js";
import { type SeedRanges, underOtherSeeds } from "./other-seeds.js";
import { type PinnedReduction, pinnedTune } from "./pinned.js";
import { type PointTrials, simulatePoint } from "./simulate-point.js";
import { bestCandidate, type Candidate } from "./start.js";
import { theoryBoundary } from "./theory.js";
import type { TheoryBoundary } from "./theory-format.js";
import { partiesOf } from "./theory-party.js";
import { type Ask, sustains, type TrialTable } from "./trials.js";
import { type Judgement, judge } from "./verdict.js";
import { surroundingsOn } from "./way-out.js";
import { type WorstPoint, worstPoint } from "./worst.js";

export interface AxisReduction {
  readonly variants: readonly Variant[];
  readonly boundaries: readonly VariantBoundary[];
  /** Per D of the grid, theory heard. */
  readonly sustained: readonly RowBoundary[];
  /** Per point, [d * p.length + p]. */
  readonly worst: readonly WorstPoint[];
  readonly judgements: readonly Judgement[];
  readonly margins: readonly PointMargins[];
  readonly safe: readonly boolean[];
  readonly field: Field;
  readonly start: ConfirmedStart | null;
  readonly pinned: PinnedReduction | null;
  readonly theory: AxisTheory;
  readonly theoryBoundary: TheoryBoundary;
}

/** A candidate whose own trials and margins were clean. */
export interface ConfirmedStart extends Candidate {
  readonly worst: WorstPoint;
  readonly margins: PointMargins;
  readonly otherSeeds: SeedRanges;
}

/** Nudges are bisected this much finer than the rest: they are held against theory. */
const FINER = 10;

/**
 * `grid` holds the results of every variant of the axis over the grid. `nudgeDecay` is the trials' own rule: the growth
 * (1/s) below which a nudge dies out; `breathe` is called where others may have the thread.
 */
export async function reduceAxis(
  plan: Plan,
  axis: Axis,
  grid: ReadonlyMap<number, TrialTable>,
  { theory, lines, margins }: GridTheory,
  ask: Ask,
  nudgeDecay: number,
  breathe: () => Promise<void>,
): Promise<AxisReduction> {
  const { p, d } = plan.sweep.grid;
  const variants = plan.variants.filter((variant) => variant.axis === axis);
  const tolerance = plan.sweep.boundaryTolerance;
  const nudges = new Set(variants.filter(({ script }) => isPlainNudge(script)).map(({ index }) => index));
  const bisection = { tolerance, finer: { variants: nudges, tolerance: tolerance / FINER } };
  const points = d.flatMap((_, row) => p.map((__, column) => row * p.length + column));
  const [boundaries, worst] = await Promise.all([
    findBoundaries({ p, d, grid, ...bisection }, ask),
    worstPoints(grid, points, breathe),
  ]);
  const parties = partiesOf(plan, boundaries, theory, lines);
  const firstToGo = d.map((_, row) => firstToEnd(boundaries, row));
  const sustained = d.map((_, row) => cautious(commonIntervals(boundaries, row), parties, row, firstToGo[row][0]));
  await breathe();
  const sustainedBy = points.map((point) => {
    const row = Math.floor(point / p.length);
    const trial = firstToGo[row].find((variant) => sustains(grid.get(variant) as TrialTable, point));
    return trial ?? objector(sustained[row], parties, row, p[point % p.length]);
  });
  const around = surroundingsOn(p.length, worst, sustainedBy);
  const judgements = points.map((point) => judge(worst[point], sustainedBy[point], plan.sweep.limits, around(point)));
  await breathe();
  const { limits, margins: wanted } = plan.sweep;
  const field = fieldOf({ p, d, worst, margins, sustained, limits, wanted });
  const safe = points.map(
    (point) =>
      judgements[point].verdict === "clean" &&
      tightest(field, point % p.length, Math.floor(point / p.length)).room >= 0,
  );
  const bench = { plan, variants, theory, ask };
  const start = await confirmedStart(bench, field);
  const pinned = await pinnedTune(bench, axis, bisection, lines);
  const found = { variants, boundaries, sustained, worst, judgements, margins, safe, field, start, pinned, theory };
  const input = { theory, lines, boundaries, start, nudgeDecay };
  return { ...found, theoryBoundary: await theoryBoundary(plan, axis, input, breathe) };
}

async function worstPoints(
  grid: ReadonlyMap<number, TrialTable>,
  points: readonly number[],
  breathe: () => Promise<void>,
): Promise<WorstPoint[]> {
  const tables = [...grid];
  const worst: WorstPoint[] = [];
  for (const row of points) {
    await breathe();
    worst.push(worstPoint(tables.map(([variant, table]) => ({ variant, table, row }))));
  }
  return worst;
}

/** Candidates refused by their own trials before the search gives up. */
const ATTEMPTS = 8;

async function confirmedStart(bench: PointTrials, field: Field): Promise<ConfirmedStart | null> {
  const refused: { p: number; d: number }[] = [];
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const candidate = bestCandidate(field, refused);
    if (candidate === null) return null;
    const { p, d } = candidate;
    const { safe, worst, margins } = await simulatePoint(bench, p, d);
    if (safe) return { ...candidate, worst, margins, otherSeeds: await underOtherSeeds(bench, { p, d, worst }) };
    refused.push({ p, d });
  }
  return null;
}
