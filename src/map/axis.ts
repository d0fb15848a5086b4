// All trials of one axis reduced: worst cases, boundaries, margins, verdicts, safe region and starting tune, SI.
import { at } from "../base/at.js";
import type { Plan, Variant } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { isPlainNudge } from "./agreement.js";
import { commonIntervals, findBoundaries, firstToEnd, type RowBoundary, type VariantBoundary } from "./boundary.js";
import type { AxisConfidence, DrawOfAxis } from "./confidence-format.js";
import { type Field, fieldOf, tightest } from "./field.js";
import type { GridTheory } from "./grid-theory.js";
import type { AxisTheory, PointMargins } from "./margins.js";
import { type SeedRanges, underOtherSeeds } from "./other-seeds.js";
import { type PinnedReduction, pinnedTune } from "./pinned.js";
import { leftOutOf } from "./settled.js";
import { type PointTrials, simulatePoint } from "./simulate-point.js";
import { bestCandidate, type Candidate, type Place } from "./start.js";
import { theoryBoundary } from "./theory.js";
import type { TheoryBoundary } from "./theory-format.js";
import { theoryRangesOf } from "./theory-ranges.js";
import { type Ask, sustains, type TrialTable } from "./trials.js";
import { type Judgement, judge } from "./verdict.js";
import { surroundingsOn } from "./way-out.js";
import { theoryDecider, withTheory } from "./with-theory.js";
import { type WorstPoint, worstPoint } from "./worst.js";

export interface AxisReduction {
  readonly variants: readonly Variant[];
  readonly boundaries: readonly VariantBoundary[];
  /** Per D of the grid, limited by theory too. */
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
  /** Points that a nudge settled, and the trials that were left out there; null: none. */
  readonly leftOut: ReturnType<typeof leftOutOf>;
  /** Only where draws were judged. */
  readonly confidence?: AxisConfidence;
  readonly draws?: AxisDraws;
}

/** Per draw: its boundary per D in display units, and what forbids the start. */
export type AxisDraws = readonly DrawOfAxis[];

/** What has been found out about an axis when its start is to be chosen. */
export interface AxisFound {
  readonly plan: Plan;
  readonly axis: Axis;
  readonly variants: readonly Variant[];
  readonly grid: ReadonlyMap<number, TrialTable>;
  readonly safe: readonly boolean[];
  readonly field: Field;
  readonly sustained: readonly RowBoundary[];
  readonly ask: Ask;
  readonly yieldIfDue: () => Promise<void>;
  /** The best place of a field, or the nearest to a wanted one, that its own trials confirm. */
  readonly confirmed: (field: Field, wanted?: Place | null) => Promise<ConfirmedStart | null>;
}

/** What draws of the model say of an axis, the start among it. */
export interface ConfidentAxis {
  readonly start: ConfirmedStart | null;
  readonly confidence: AxisConfidence;
  readonly draws: AxisDraws;
}

/** A candidate whose own trials and margins were clean. */
export interface ConfirmedStart extends Candidate {
  readonly worst: WorstPoint;
  readonly margins: PointMargins;
  readonly otherSeeds: SeedRanges;
}

/** Nudges are bisected this much finer than the rest: they are compared with theory. */
const FINER = 10;

/**
 * `grid` holds the results of every variant of the axis over the grid. `nudgeDecay` is the trials' own rule: the growth
 * (1/s) below which a nudge dies out; `yieldIfDue` is called where other work may have the thread. `judgeDraws` chooses the
 * start where the plan has draws.
 */
export async function reduceAxis(
  plan: Plan,
  axis: Axis,
  grid: ReadonlyMap<number, TrialTable>,
  { theory, lines, margins }: GridTheory,
  ask: Ask,
  nudgeDecay: number,
  yieldIfDue: () => Promise<void>,
  judgeDraws?: (found: AxisFound) => Promise<ConfidentAxis>,
): Promise<AxisReduction> {
  const { p, d } = plan.sweep.grid[axis];
  const variants = plan.variants.filter((variant) => variant.axis === axis);
  const tolerance = plan.sweep.boundaryTolerance;
  const nudges = new Set(variants.filter(({ script }) => isPlainNudge(script)).map(({ index }) => index));
  const bisection = { tolerance, finer: { variants: nudges, tolerance: tolerance / FINER } };
  const points = d.flatMap((_, row) => p.map((__, column) => row * p.length + column));
  const [boundaries, worst] = await Promise.all([
    findBoundaries({ p, d, grid, ...bisection }, ask),
    worstPoints(grid, points, yieldIfDue),
  ]);
  const theoryRanges = theoryRangesOf(plan, boundaries, theory, lines);
  const endOrder = d.map((_, row) => firstToEnd(boundaries, row));
  const sustained = d.map((_, row) =>
    withTheory(commonIntervals(boundaries, row), theoryRanges, row, at(at(endOrder, row), 0)),
  );
  await yieldIfDue();
  const sustainedBy = points.map((point) => {
    const row = Math.floor(point / p.length);
    const trial = at(endOrder, row).find((variant) => sustains(grid.get(variant) as TrialTable, point));
    return trial ?? theoryDecider(at(sustained, row), theoryRanges, row, at(p, point % p.length));
  });
  const around = surroundingsOn(p.length, worst, sustainedBy);
  const judgements = points.map((point) =>
    judge(at(worst, point), at(sustainedBy, point), plan.sweep.limits, around(point)),
  );
  await yieldIfDue();
  const { limits, margins: required } = plan.sweep;
  const field = fieldOf({ p, d, worst, margins, sustained, limits, required });
  const safe = points.map(
    (point) =>
      at(judgements, point).verdict === "clean" &&
      tightest(field, point % p.length, Math.floor(point / p.length)).room >= 0,
  );
  const trials = { plan, variants, theory, ask };
  const confirmed = (chosen: Field, wanted: Place | null = null) => confirmedStart(trials, chosen, field, wanted);
  const sure = await judgeDraws?.({ plan, axis, variants, grid, safe, field, sustained, ask, yieldIfDue, confirmed });
  const start = sure === undefined ? await confirmed(field) : sure.start;
  const pinned = await pinnedTune(trials, axis, bisection, lines);
  const found = { variants, boundaries, sustained, worst, judgements, margins, safe, field, start, pinned, theory };
  const input = { theory, lines, boundaries, start, nudgeDecay };
  return {
    ...found,
    ...(sure === undefined ? {} : { confidence: sure.confidence, draws: sure.draws }),
    theoryBoundary: await theoryBoundary(plan, axis, input, yieldIfDue),
    leftOut: leftOutOf(grid),
  };
}

async function worstPoints(
  grid: ReadonlyMap<number, TrialTable>,
  points: readonly number[],
  yieldIfDue: () => Promise<void>,
): Promise<WorstPoint[]> {
  const tables = [...grid];
  const worst: WorstPoint[] = [];
  for (const row of points) {
    await yieldIfDue();
    worst.push(worstPoint(tables.map(([variant, table]) => ({ variant, table, row }))));
  }
  return worst;
}

/** Candidates that fail in their own trials before the search gives up. */
const ATTEMPTS = 8;

async function confirmedStart(
  trials: PointTrials,
  field: Field,
  edges: Field,
  wanted: Place | null,
): Promise<ConfirmedStart | null> {
  const refused: Place[] = [];
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const candidate = bestCandidate(field, refused, edges, wanted);
    if (candidate === null) return null;
    const { p, d } = candidate;
    const { safe, worst, margins } = await simulatePoint(trials, p, d);
    if (safe) return { ...candidate, worst, margins, otherSeeds: await underOtherSeeds(trials, { p, d, worst }) };
    refused.push({ p, d });
  }
  return null;
}
