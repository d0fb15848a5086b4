// Theory's boundary of one axis next to the simulated one: lines, agreement, the time step's share, sensitivity.
import { at } from "../base/at.js";
import { levelTrim, type Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { axisPieces } from "../theory/axis-pieces.js";
import { commandPath } from "../theory/controller.js";
import { steppedPlant } from "../theory/stepped.js";
import { agreementOf, type Loop, stepEffect } from "./agreement.js";
import { attitudeFollowing } from "./attitude.js";
import type { VariantBoundary } from "./boundary.js";
import { limitingCaseOf } from "./display-units.js";
import type { AxisTheory } from "./margins.js";
import { sensitivityOf } from "./sensitivity.js";
import type { TheoryBoundary } from "./theory-format.js";
import { boundaryLines, stableRanges } from "./theory-lines.js";

/** What has been found out about the axis so far. */
export interface TheoryInput {
  readonly theory: AxisTheory;
  readonly lines: TheoryLines;
  readonly boundaries: readonly VariantBoundary[];
  readonly start: { readonly p: number; readonly d: number } | null;
  /** 1/s: a nudge whose swing grows by less dies out. */
  readonly nudgeDecay: number;
}

/** The loops as they are stepped, and their boundaries. */
export interface TheoryLines {
  readonly stepped: readonly Loop[];
  readonly loops: TheoryBoundary["loops"];
}

/** `yieldIfDue` as gridTheory has it. */
export async function theoryLines(
  plan: Plan,
  axis: Axis,
  theory: AxisTheory,
  yieldIfDue: () => Promise<void>,
): Promise<TheoryLines> {
  const { controller } = plan.airframe;
  const holding = { ...plan.holding, yaw: controller.yaw };
  const { i } = controller[axis];
  const grid = plan.sweep.grid[axis];
  const stepped: Loop[] = [];
  const loops: TheoryBoundary["loops"][number][] = [];
  for (const { variant: index } of theory.loops) {
    await yieldIfDue();
    const variant = at(plan.variants, index);
    const { craft } = at(plan.conditions, variant.condition);
    const pieces = axisPieces(craft, levelTrim(plan, variant), axis, holding, steppedPlant);
    stepped.push({ variant, pieces });
    await yieldIfDue();
    const { throttle, condition } = limitingCaseOf(plan, variant);
    const curve = boundaryLines(pieces, i, grid);
    loops.push({ throttle, condition, curve, perD: stableRanges(pieces, i, grid) });
  }
  return { stepped, loops };
}

/** `yieldIfDue` as gridTheory has it. */
export async function theoryBoundary(
  plan: Plan,
  axis: Axis,
  { theory, lines: { stepped, loops }, boundaries, start, nudgeDecay }: TheoryInput,
  yieldIfDue: () => Promise<void>,
): Promise<TheoryBoundary> {
  const { i } = plan.airframe.controller[axis];
  const exact = theory.loops.map(({ variant, pieces }): Loop => ({ variant: at(plan.variants, variant), pieces }));
  await yieldIfDue();
  const agreement = agreementOf(plan, stepped, boundaries, nudgeDecay);
  await yieldIfDue();
  const step = stepEffect(plan, exact, stepped);
  return {
    loops,
    agreement,
    step,
    sensitivity: await sensitivityOf(plan, axis, exact, start, yieldIfDue),
    attitude:
      start === null
        ? null
        : attitudeFollowing(theory, { p: start.p, i, d: start.d }, (on) => commandPath(plan.airframe, axis, on)),
  };
}
