// Yaw's P along a strip, roll and pitch at their starting tunes: from a turn that runs on to the loop's own boundary, or to where
// the motors have nothing left.
import { at } from "../base/at.js";
import { I_UNIT, P_UNIT } from "../base/units.js";
import type { AxisReduction } from "../map/axis.js";
import { roundToTwelveDigits } from "../map/display-units.js";
import { type AxisTheory, firstAtEachLevel, theoryOf } from "../map/margins.js";
import type { YawStrip } from "../map/strip-format.js";
import type { Ask } from "../map/trials.js";
import { levelTrim, type Plan, type TrialPlan } from "../plan/plan.js";
import { stripVariants } from "../plan/strip-variants.js";
import type { Axis, RequestedStrip } from "../sweep/sweep.js";
import { axisPieces } from "../theory/axis-pieces.js";
import { stableIntervals } from "../theory/boundary.js";
import { lineOf } from "./gains.js";
import { judgedStrip } from "./strip.js";

const AXES: readonly Axis[] = ["roll", "pitch"];
/** Factor from the lowest P to the least boundary: far below what stops a turn in time. */
const SPAN = 32;
/** The last P lies beyond the boundary, so that the strip ends with what a pilot would see there. */
const BEYOND = 1.1;

/** What the strip's trials are simulated from: `plan` with the axes that have a start held there. */
export function yawPlan(plan: Plan, axes: Readonly<Record<Axis, AxisReduction>>, asked: RequestedStrip): TrialPlan {
  const { controller } = plan.airframe;
  const holdOf = (axis: Axis) => {
    const { start } = axes[axis];
    return start === null ? plan.holding[axis] : { p: start.p, d: start.d, i: controller[axis].i };
  };
  const { draws: _, ...own } = plan;
  return {
    ...own,
    holding: { roll: holdOf("roll"), pitch: holdOf("pitch") },
    variants: stripVariants(plan, asked.scripts, "yaw"),
  };
}

/** `ask` simulates the variants of `trials`. */
export async function yawStrip(
  plan: Plan,
  axes: Readonly<Record<Axis, AxisReduction>>,
  asked: RequestedStrip,
  trials: TrialPlan,
  ask: Ask,
): Promise<YawStrip> {
  const { yaw, scale } = plan.airframe.controller;
  const theory = yawTheory(plan, trials);
  const boundary = leastBoundary(theory, yaw.i, yaw.p);
  const strip = await judgedStrip({
    plan,
    kind: "yaw",
    asked,
    variants: trials.variants,
    gains: lineOf(boundary / SPAN, BEYOND * boundary, asked.points, yaw.p, P_UNIT),
    declared: yaw.p,
    unit: P_UNIT,
    oneUnit: scale?.yaw?.p,
    request: (p) => ({ p, d: 0 }),
    margins: (p) => theory.margins(p, 0),
    ask,
  });
  return {
    ...strip,
    i: roundToTwelveDigits(yaw.i / I_UNIT),
    heldAtStart: AXES.filter((axis) => axes[axis].start !== null),
  };
}

function yawTheory(plan: Plan, { holding }: TrialPlan): AxisTheory {
  const { yaw } = plan.airframe.controller;
  const loops = firstAtEachLevel(plan.variants).map((variant) => {
    const { craft } = at(plan.conditions, variant.condition);
    return { variant: variant.index, pieces: axisPieces(craft, levelTrim(plan, variant), "yaw", { ...holding, yaw }) };
  });
  return theoryOf(loops, yaw.i);
}

const SEARCHED = { from: P_UNIT, to: 1e4 * P_UNIT };

/** The least P above which yaw oscillates at any level under any condition; twice the model's own where none is found. */
function leastBoundary({ loops }: AxisTheory, i: number, declared: number): number {
  const ends = loops.flatMap(({ pieces }) =>
    stableIntervals(pieces, 0, i, SEARCHED)
      .slice(-1)
      .map(({ to }) => to),
  );
  const least = Math.min(...ends);
  return least < SEARCHED.to ? least : 2 * declared;
}
