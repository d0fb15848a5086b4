// The pinned tune, which a pilot flies today: its own verdict, and how far P alone may rise from it.

import { at } from "../base/at.js";
import { MEASURE_IDS } from "../base/measures.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { type BoundaryInput, commonIntervals, findBoundaries, firstToEnd, type RowBoundary } from "./boundary.js";
import { boundaryPoint } from "./boundary-point.js";
import { DEGREES, deciderIn, roundToTwelveDigits, toDisplayD, toDisplayP } from "./display-units.js";
import type { PinnedPoint } from "./format.js";
import { type PointResult, type PointTrials, simulatePoint } from "./simulate-point.js";
import type { TheoryLines } from "./theory.js";
import { stableRanges } from "./theory-lines.js";
import { theoryRangesOf } from "./theory-ranges.js";
import { sustains, type TrialTable, WIDTH } from "./trials.js";
import { isClean, type Judgement, judge } from "./verdict.js";
import type { Met } from "./way-out.js";
import { type TheoryRanges, theoryDecider, withTheory } from "./with-theory.js";
import { worstPoint } from "./worst.js";

export interface PinnedReduction extends PointResult {
  readonly judgement: Judgement;
  /** Stable P range at exactly this D, worst case over the variants, limited by theory too. */
  readonly stable: RowBoundary;
}

/** How finely the grid's own boundaries are bisected. */
type Bisection = Pick<BoundaryInput, "tolerance" | "finer">;

/** Null where the sweep pins no tune. */
export async function pinnedTune(
  trials: PointTrials,
  axis: Axis,
  bisection: Bisection,
  lines: TheoryLines,
): Promise<PinnedReduction | null> {
  const at = trials.plan.sweep.pinned?.[axis];
  if (at === undefined) return null;
  const { p, d } = trials.plan.sweep.grid[axis];
  const { limits } = trials.plan.sweep;
  const alongP = await simulatedAlong(
    trials,
    p.map((gain) => ({ p: gain, d: at.d })),
  );
  const { stable, theoryRanges } = await stableAt(trials, axis, at.d, alongP, bisection, lines);
  const place = await simulatePoint(trials, at.p, at.d, theoryDecider(stable, theoryRanges, 0, at.p));
  const { worst, sustainedBy } = place;
  // Within every limit the surroundings are not needed.
  const alongD = isClean(worst, sustainedBy, limits)
    ? new Map()
    : await simulatedAlong(
        trials,
        d.map((gain) => ({ p: at.p, d: gain })),
      );
  const { more: moreP, less: lessP } = metOn(p, at.p, alongP);
  const { more: moreD, less: lessD } = metOn(alongD.size === 0 ? [] : d, at.d, alongD);
  const judgement = judge(worst, sustainedBy, limits, { moreP, lessP, moreD, lessD });
  return { ...place, judgement, stable };
}

type Tables = ReadonlyMap<number, TrialTable>;

/** Every variant at every place. */
async function simulatedAlong(
  { variants, ask }: PointTrials,
  places: readonly { p: number; d: number }[],
): Promise<Tables> {
  const table = await ask(variants.flatMap(({ index }) => places.map((place) => ({ variant: index, ...place }))));
  const { length } = places;
  return new Map(variants.map(({ index }, k) => [index, rows(table, k * length, (k + 1) * length)]));
}

/** Worst cases above and below a gain along a line of them, nearest first. */
function metOn(line: readonly number[], gain: number, tables: Tables): { more: Met; less: Met } {
  const entries = [...tables];
  const met = line.map((at, row) => ({
    at,
    worst: entries.some(([, table]) => sustains(table, row))
      ? null
      : worstPoint(entries.map(([variant, table]) => ({ variant, table, row }))),
  }));
  const beyond = (side: (at: number) => boolean) => met.filter(({ at }) => side(at)).map(({ worst }) => worst);
  return { more: beyond((at) => at > gain), less: beyond((at) => at < gain).reverse() };
}

async function stableAt(
  { plan, theory, ask }: PointTrials,
  axis: Axis,
  d: number,
  alongP: Tables,
  bisection: Bisection,
  { stepped }: TheoryLines,
): Promise<{ readonly stable: RowBoundary; readonly theoryRanges: readonly TheoryRanges[] }> {
  const { p } = plan.sweep.grid[axis];
  const boundaries = await findBoundaries({ p, d: [d], grid: alongP, ...bisection }, ask);
  const { i } = plan.airframe.controller[axis];
  const here = stepped.map(({ pieces }) => ({ perD: stableRanges(pieces, i, { p, d: [d] }) }));
  const theoryRanges = theoryRangesOf(plan, boundaries, theory, { loops: here });
  return {
    stable: withTheory(commonIntervals(boundaries, 0), theoryRanges, 0, at(firstToEnd(boundaries, 0), 0)),
    theoryRanges,
  };
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
  const orNull = (value: number | null) =>
    value === null || !Number.isFinite(value) ? null : roundToTwelveDigits(value);
  return {
    p: toDisplayP(p),
    d: toDisplayD(d),
    own: scale === null ? null : { p: roundToTwelveDigits(p / scale.p), d: roundToTwelveDigits(d / scale.d) },
    verdict: judgement.verdict,
    decidedBy: deciderIn(plan, judgement.decidedBy),
    measures: Object.fromEntries(MEASURE_IDS.map((id) => [id, orNull(worst[id].value)])),
    margins: {
      gainUp: orNull(margins.gainUp),
      gainDown: orNull(margins.gainDown),
      phase: roundToTwelveDigits(DEGREES * margins.phase),
    },
    safe,
    boundary: boundaryPoint(plan, d, stable),
  };
}
