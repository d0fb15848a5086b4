// What theory says of an axis before anything is simulated.
import type { Plan } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import { type AxisTheory, axisTheory, type PointMargins } from "./margins.js";
import { type TheoryLines, theoryLines } from "./theory.js";

export interface GridTheory {
  readonly theory: AxisTheory;
  readonly lines: TheoryLines;
  /** Of every point of the grid, [d * p.length + p]. */
  readonly margins: readonly PointMargins[];
}

/** `yieldIfDue` is called between points, so that other work of this thread gets its turn. */
export async function gridTheory(plan: Plan, axis: Axis, yieldIfDue: () => Promise<void>): Promise<GridTheory> {
  const { p, d } = plan.sweep.grid[axis];
  const variants = plan.variants.filter((variant) => variant.axis === axis);
  const theory = axisTheory(plan, axis, variants);
  const lines = await theoryLines(plan, axis, theory, yieldIfDue);
  const margins: PointMargins[] = [];
  for (const dGain of d)
    for (const pGain of p) {
      await yieldIfDue();
      margins.push(theory.margins(pGain, dGain));
    }
  return { theory, lines, margins };
}
