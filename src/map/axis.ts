// All trials of one axis reduced: worst cases, boundaries, margins, verdicts, safe region and starting tune, SI.
import type { Plan, Variant } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { findBoundaries, type VariantBoundary, worstInterval, type WorstInterval } from "./boundary.js";
import { type Field, fieldOf, tightest } from "./field.js";
import { type AxisTheory, axisTheory, type PointMargins } from "./margins.js";
import { bestCandidate, type Candidate } from "./start.js";
import { type Ask, diesOut, type TrialTable } from "./trials.js";
import { judge, type Judgement } from "./verdict.js";
import { type WorstPoint, worstPoint } from "./worst.js";

export interface AxisReduction {
  readonly variants: readonly Variant[];
  readonly boundaries: readonly VariantBoundary[];
  /** Per D of the grid. */
  readonly sustained: readonly (WorstInterval | { readonly never: number })[];
  /** Per point, [d * p.length + p]. */
  readonly worst: readonly WorstPoint[];
  readonly judgements: readonly Judgement[];
  readonly margins: readonly PointMargins[];
  readonly safe: readonly boolean[];
  readonly field: Field;
  readonly start: ConfirmedStart | null;
  readonly theory: AxisTheory;
}

/** A candidate whose own trials and margins were clean. */
export interface ConfirmedStart extends Candidate {
  readonly worst: WorstPoint;
  readonly margins: PointMargins;
}

/** `grid` holds the results of every variant of the axis over the grid. */
export async function reduceAxis(plan: Plan, axis: Axis, grid: ReadonlyMap<number, TrialTable>, ask: Ask): Promise<AxisReduction> {
  const { p, d } = plan.sweep.grid;
  const variants = plan.variants.filter((variant) => variant.axis === axis);
  const boundaries = await findBoundaries({ p, d, grid, tolerance: plan.sweep.boundaryTolerance }, ask);
  const sustained = d.map((_, row) => worstInterval(boundaries, row));
  const points = d.flatMap((_, row) => p.map((__, column) => row * p.length + column));
  const worst = points.map((row) => worstPoint([...grid].map(([variant, table]) => ({ variant, table, row }))));
  const firstToGo = d.map((_, row) => order(boundaries, row));
  const judgements = points.map((point) => {
    const sustainedBy = firstToGo[Math.floor(point / p.length)].find((variant) => !diesOut(grid.get(variant) as TrialTable, point));
    return judge(worst[point], sustainedBy ?? -1, plan.sweep.limits);
  });
  const theory = axisTheory(plan, axis, variants);
  const margins = points.map((point) => theory.margins(p[point % p.length], d[Math.floor(point / p.length)]));
  const { limits, margins: wanted } = plan.sweep;
  const field = fieldOf({ p, d, worst, margins, sustained, limits, wanted });
  const safe = points.map((point) => judgements[point].verdict === "clean" && tightest(field, point % p.length, Math.floor(point / p.length)).room >= 0);
  const start = await confirmedStart(plan, variants, field, theory, ask);
  return { variants, boundaries, sustained, worst, judgements, margins, safe, field, start, theory };
}

/** Variants by the P at which their first stable interval ends. */
function order(boundaries: readonly VariantBoundary[], row: number): number[] {
  const ends = boundaries.map(({ variant, perD }) => ({ variant, to: perD[row][0]?.to ?? 0 }));
  return ends.sort((a, b) => a.to - b.to || a.variant - b.variant).map(({ variant }) => variant);
}

/** Candidates refused by their own trials before the search gives up. */
const ATTEMPTS = 8;

async function confirmedStart(plan: Plan, variants: readonly Variant[], field: Field, theory: AxisTheory, ask: Ask): Promise<ConfirmedStart | null> {
  const refused: { p: number; d: number }[] = [];
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const candidate = bestCandidate(field, refused);
    if (candidate === null) return null;
    const { p, d } = candidate;
    const table = await ask(variants.map((variant) => ({ variant: variant.index, p, d })));
    const worst = worstPoint(variants.map((variant, row) => ({ variant: variant.index, table, row })));
    const sustainedBy = variants.find((_, row) => !diesOut(table, row))?.index ?? -1;
    const margins = theory.margins(p, d);
    const { gain, phase } = plan.sweep.margins;
    const roomy = margins.gainUp >= gain && (margins.gainDown ?? gain) >= gain && margins.phase >= phase;
    if (roomy && judge(worst, sustainedBy, plan.sweep.limits).verdict === "clean") return { ...candidate, worst, margins };
    refused.push({ p, d });
  }
  return null;
}
