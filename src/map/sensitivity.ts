// Where the sensitivity of an axis is computed, and the three parameters that move its boundary most.
import { at, last } from "../base/at.js";
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { stableIntervals } from "../theory/boundary.js";
import { effectsOf } from "../theory/sensitivity.js";
import type { Loop } from "./agreement.js";
import { limitingCaseOf, toDisplayD, toDisplayP } from "./display-units.js";
import type { Sensitivity } from "./theory-format.js";
import { usefulFirst } from "./useful.js";

const SHARE = 0.1;
const SHOWN = 3;

/** Above the swept P by this factor theory still searches for the P at which the axis gives out. */
const BEYOND = 10;

/**
 * At a D, the loop that gives out at the lowest P; null where none does. The D is the starting tune's, or the middle
 * one of the grid.
 */
export async function sensitivityOf(
  plan: Plan,
  axis: Axis,
  loops: readonly Loop[],
  start: { readonly d: number } | null,
  yieldIfDue: () => Promise<void>,
): Promise<Sensitivity | null> {
  const { p: line, d: rows } = plan.sweep.grid[axis];
  const { yaw, [axis]: own } = plan.airframe.controller;
  const d = start?.d ?? at(rows, rows.length >> 1);
  const range = { from: at(line, 0), to: last(line) * BEYOND };
  const ends = loops.flatMap((loop) => {
    const to = usefulFirst(stableIntervals(loop.pieces, d, own.i, range))[0]?.to ?? range.to;
    return to < range.to ? [{ loop, p: to }] : [];
  });
  if (ends.length === 0) return null;
  const { loop, p } = ends.reduce((least, end) => (end.p < least.p ? end : least));
  const { variant } = loop;
  const effects = await effectsOf(
    {
      airframe: plan.airframe,
      around: at(plan.conditions, variant.condition).condition,
      throttle: variant.hovering ? "hover" : variant.throttle,
      axis,
      holding: { ...plan.holding, yaw },
      d,
      p,
      loop: loop.pieces,
    },
    SHARE,
    yieldIfDue,
  );
  const change = (ratio: number | null) => (ratio === null ? null : Number((100 * (ratio - 1)).toPrecision(4)));
  const { throttle, condition } = limitingCaseOf(plan, variant);
  return {
    d: toDisplayD(d),
    p: toDisplayP(p),
    throttle,
    condition,
    effects: effects
      .slice(0, SHOWN)
      .map(({ key, title, more, less }) => ({ key, title, more: change(more), less: change(less) })),
  };
}
