// The tune somebody flies today: its own verdict, and how far P alone may rise from it.

import { MEASURE_IDS } from "../base/measures.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { type BoundaryInput, commonIntervals, findBoundaries, firstToEnd, type RowBoundary } from "./boundary.js";
import { boundaryPoint } from "./boundary-point.js";
import { cautious, objector, type TheoryParty } from "./cautious.js";
import type { PinnedPoint } from "./format.js";
import { DEGREES, deciderIn, dPeople, pPeople, tidy } from "./people.js";
import type { TheoryLines } from "./theory.js";
import { stableRanges } from "./theory-lines.js";
import { partiesOf } from "./theory-party.js";
import { type TrialTable, WIDTH } from "./trials.js";
import { type Bench, type TriedPlace, tried } from "./tried.js";

export interface PinnedReduction extends TriedPlace {
  /** Stable P range at exactly this D, worst case over the variants, theory heard. */
  readonly stable: RowBoundary;
}

/** How finely the grid's own boundaries are bisected. */
type Bisection = Pick<BoundaryInput, "tolerance" | "finer">;

/** Null where the sweep pins no tune. */
export async function pinnedTune(
  bench: Bench,
  axis: Axis,
  bisection: Bisection,
  lines: TheoryLines,
): Promise<PinnedReduction | null> {
  const at = bench.plan.sweep.pinned?.[axis];
  if (at === undefined) return null;
  const { stable, parties } = await stableAt(bench, axis, at.d, bisection, lines);
  return { ...(await tried(bench, at.p, at.d, objector(stable, parties, 0, at.p))), stable };
}

async function stableAt(
  { plan, variants, theory, ask }: Bench,
  axis: Axis,
  d: number,
  bisection: Bisection,
  { stepped }: TheoryLines,
): Promise<{ readonly stable: RowBoundary; readonly parties: readonly TheoryParty[] }> {
  const { p } = plan.sweep.grid;
  const table = await ask(variants.flatMap(({ index }) => p.map((gain) => ({ variant: index, p: gain, d }))));
  const grid = new Map(variants.map(({ index }, at) => [index, rows(table, at * p.length, (at + 1) * p.length)]));
  const boundaries = await findBoundaries({ p, d: [d], grid, ...bisection }, ask);
  const { i } = plan.airframe.controller[axis];
  const here = stepped.map(({ pieces }) => ({ perD: stableRanges(pieces, i, { p, d: [d] }) }));
  const parties = partiesOf(plan, boundaries, theory, { loops: here });
  const [first] = firstToEnd(boundaries, 0);
  return { stable: cautious(commonIntervals(boundaries, 0), parties, 0, first), parties };
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
    decidedBy: deciderIn(plan, judgement.decidedBy),
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
