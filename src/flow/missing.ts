// Which trials an unfinished run is missing, as lines to print: by variant, the one missing most first.
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import type { Task } from "../run/task.js";

const MOST = 5; // variants named

/** One line per variant, the rest of them counted. */
export function missingLines(plan: TrialPlan, missing: readonly Task[]): string[] {
  const trials = new Map<number, number>();
  for (const { variant, p } of missing) trials.set(variant, (trials.get(variant) ?? 0) + p.length);
  const most = [...trials].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  const lines = most.slice(0, MOST).map(([variant, count]) => `${count} of ${nameOf(plan, plan.variants[variant])}`);
  return most.length > MOST ? [...lines, `and some of ${most.length - MOST} more scripts and conditions`] : lines;
}

function nameOf(plan: TrialPlan, variant: TrialVariant | undefined): string {
  if (variant === undefined) return "no script of the plan";
  const { script, axis, throttle, condition } = variant;
  const name = plan.conditions[condition]?.condition.name;
  return `${script.name}, ${axis}, throttle ${Math.round(100 * throttle)} %, ${name}`;
}
