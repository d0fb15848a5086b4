// The tune somebody flies today: its own verdict, and how far P alone may rise from it.

import { MEASURE_IDS } from "../base/measures.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { type BoundaryInput, findBoundaries, type WorstInterval, worstInterval } from "./boundary.js";
import { boundaryPoint } from "./boundary-point.js";
import type { PinnedPoint } from "./format.js";
import { culpritOf, DEGREES, dPeople, pPeople, tidy } from "./people.js";
import { diesOut, type TrialTable, WIDTH } from "./trials.js";
import { type Bench, type TriedPlace, tried } from "./tried.js";
import { isClean, type Judgement, judge } from "./verdict.js";
import type { Met } from "./way-out.js";
import { worstPoint } from "./worst.js";

export interface PinnedReduction extends TriedPlace {
  readonly judgement: Judgement;
  /** Stable P range at exactly this D, worst case over the variants. */
  readonly stable: WorstInterval | { readonly never: number };
}

/** How finely the grid's own boundaries are bisected. */
type Bisection = Pick<BoundaryInput, "tolerance" | "finer">;

/** Null where the sweep pins no tune. */
export async function pinnedTune(bench: Bench, axis: Axis, bisection: Bisection): Promise<PinnedReduction | null> {
  const at = bench.plan.sweep.pinned?.[axis];
  if (at === undefined) return null;
  const { p, d } = bench.plan.sweep.grid;
  const place = await tried(bench, at.p, at.d);
  const alongP = await flownAlong(
    bench,
    p.map((gain) => ({ p: gain, d: at.d })),
  );
  const stable = worstInterval(await findBoundaries({ p, d: [at.d], grid: alongP, ...bisection }, bench.ask), 0);
  const { worst, sustainedBy } = place;
  const { limits } = bench.plan.sweep;
  // Inside every limit there is no way out to look for.
  const alongD = isClean(worst, sustainedBy, limits)
    ? new Map()
    : await flownAlong(
        bench,
        d.map((gain) => ({ p: at.p, d: gain })),
      );
  const { more: moreP, less: lessP } = metOn(p, at.p, alongP);
  const { more: moreD, less: lessD } = metOn(alongD.size === 0 ? [] : d, at.d, alongD);
  const judgement = judge(worst, sustainedBy, limits, { moreP, lessP, moreD, lessD });
  return { ...place, judgement, stable };
}

type Tables = ReadonlyMap<number, TrialTable>;

/** Every variant at every place. */
async function flownAlong({ variants, ask }: Bench, places: readonly { p: number; d: number }[]): Promise<Tables> {
  const table = await ask(variants.flatMap(({ index }) => places.map((place) => ({ variant: index, ...place }))));
  const { length } = places;
  return new Map(variants.map(({ index }, at) => [index, rows(table, at * length, (at + 1) * length)]));
}

/** Worst cases above and below a gain along a line of them, nearest first. */
function metOn(line: readonly number[], gain: number, tables: Tables): { more: Met; less: Met } {
  const seen = [...tables];
  const met = line.map((at, row) => ({
    at,
    worst: seen.every(([, table]) => diesOut(table, row))
      ? worstPoint(seen.map(([variant, table]) => ({ variant, table, row })))
      : null,
  }));
  const beyond = (side: (at: number) => boolean) => met.filter(({ at }) => side(at)).map(({ worst }) => worst);
  return { more: beyond((at) => at > gain), less: beyond((at) => at < gain).reverse() };
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
