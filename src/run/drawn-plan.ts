// Which plan a task is of: that of the model as it is written, or that of a draw.
import type { TrialPlan } from "../plan/plan.js";

/** The plan of a task: of one of the draws where it names one. RangeError where there is no such draw. */
export function drawnPlan(plan: TrialPlan, { draw }: { readonly draw?: number }): TrialPlan {
  if (draw === undefined) return plan;
  const drawn = plan.draws?.[draw];
  if (drawn === undefined) throw new RangeError(`no draw ${draw}`);
  return drawn;
}
