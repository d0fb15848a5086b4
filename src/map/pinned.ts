// The tune somebody flies today: its own verdict, and how far P alone may rise from it.

import { MEASURE_IDS } from "../base/measures.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { type BoundaryInput, findBoundaries, type WorstInterval, worstInterval } from "./boundary.js";
import { boundaryPoint } from "./boundary-point.js";
import type { PinnedPoint } from "./format.js";
import { culpritOf, DEGREES, dPeople, pPeople, tidy } from "./people.js";
import { type TrialTable, WIDTH } from "./trials.js";
import { type Bench, type TriedPlace, tried } from "./tried.js";

export interface PinnedReduction extends TriedPlace {
  /** Stable P range at exactly this D, worst case over the variants. */
  readonly stable: WorstInterval | { readonly never: number };
}

/** How finely the grid's own boundaries are bisected. */
type Bisection = Pick<BoundaryInput, "tolerance" | "finer">;

/** Null where the sweep pins no tune. */
export async function pinnedTune(bench: Bench, axis: Axis, bisection: Bisection): Promise<PinnedReduction | null> {
  const at = bench.plan.sweep.pinned?.[axis];
  if (at === undefined) return null;
  const place = await tried(bench, at.p, at.d);
  return { ...place, stable: await stableAt(bench, at.d, bisection) };
}

async function stableAt(
  { plan, variants, ask }: Bench,
  d: number,
  bisection: Bisection,
): Promise<PinnedReduction["stable"]> {
  const { p } = plan.sweep.grid;
  const table = await ask(variants.flatMap(({ index }) => p.map((gain) => ({ variant: index, p: gain, d }))));
  const grid = new Map(variants.map(({ index }, at) => [index, rows(table, at * p.length, (at + 1) * p.length)]));
  const boundaries = await findBoundaries({ p, d: [d], grid, ...bisection }, ask);
  return worstInterval(boundaries, 0);
}

const rows = ({ values, absent, outcome }: TrialTable, from: number, to: number): TrialTable => ({
  values: values.subarray(from * WIDTH, to * WIDTH),
  absent: absent.subarray(from * WIDTH, to * WIDTH),
  outcome: outcome.subarray(from, to),
});

/** As map.json writes it. */
export function pinnedPoint(
  plan: Plan,
  { p, d, worst, margins, judgement, safe, stable }: PinnedReduction,
): PinnedPoint {
  const { scale } = plan.airframe.controller;
  const orNull = (value: number | null) => (value === null || !Number.isFinite(value) ? null : tidy(value));
  return {
    p: pPeople(p),
    d: dPeople(d),
    own: scale === null ? null : { p: tidy(p / scale.p), d: tidy(d / scale.d) },
    verdict: judgement.verdict,
    decidedBy: judgement.decidedBy < 0 ? null : culpritOf(plan, plan.variants[judgement.decidedBy]),
    measures: Object.fromEntries(MEASURE_IDS.map((id) => [id, orNull(worst[id].value)])),
    margins: {
      gainUp: orNull(margins.gainUp),
      gainDown: orNull(margins.gainDown),
      phase: tidy(DEGREES * margins.phase),
    },
    safe,
    boundary: boundaryPoint(plan, d, stable),
  };
}
