// What the map decided about the gains a trial is simulated at.
import type { Verdict } from "../../base/measures.js";
import { NOBODY } from "../../map/decider.js";
import { AXIS_TITLES, type Axis } from "../../words/axes.js";
import type { View } from "../map/view.js";
import type { PageMap } from "../page-map.js";
import type { Level } from "../simulator.js";

export type PointDecision =
  | { readonly kind: "start" }
  /** The craft is a draw, which the map judges at its starting tune alone; `isSimulated`: or should be, and cannot be. */
  | { readonly kind: "draw"; readonly draw: number; readonly isSimulated: boolean; readonly fails: string | null }
  /** Gains that are none of the map's. */
  | { readonly kind: "between" }
  | {
      readonly kind: "point";
      readonly verdict: Verdict;
      /** A code of map/decider.ts. */
      readonly decidedBy: number;
      /** The one that alone was looked at; null: all together. */
      readonly level: Level | null;
    };

/** Of gains in display units, as the map or the map of one level alone has it. */
export function decisionOn({ axes, tunes }: PageMap, axis: Axis, p: number, d: number, view: View): PointDecision {
  const { start } = tunes[axis];
  if (start !== null && start.p === p && start.d === d) return { kind: "start" };
  const { grid } = axes[axis];
  const [i, j] = [grid.d.indexOf(d), grid.p.indexOf(p)];
  const found = view.axes[axis] ?? axes[axis];
  const verdict = found.verdict[i]?.[j];
  if (verdict === undefined) return { kind: "between" };
  const level = view.axes[axis] === undefined ? null : view.level;
  return { kind: "point", verdict, decidedBy: found.decidedBy[i]?.[j] ?? NOBODY, level };
}

/** Of the gains in one draw. */
export function decisionInDraw(
  { tunes, draws }: PageMap,
  axis: Axis,
  p: number,
  d: number,
  draw: number,
  isSimulated: boolean,
): PointDecision {
  const { start } = tunes[axis];
  const isStart = start !== null && start.p === p && start.d === d;
  const found = draws?.each[draw]?.fails.find((one) => one.startsWith(AXIS_TITLES[axis]));
  return { kind: "draw", draw, isSimulated, fails: isStart ? (found ?? null) : null };
}

/** The variant that decided; -1: none, or theory. */
export const decidingVariant = (decision: PointDecision): number =>
  decision.kind === "point" && decision.decidedBy > NOBODY ? decision.decidedBy : -1;
