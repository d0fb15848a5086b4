// I of roll and pitch along a strip, P and D at the starting tune: from drift in a gust that lasts to slow bounce-back.
import { I_UNIT } from "../base/units.js";
import type { AxisReduction, ConfirmedStart } from "../map/axis.js";
import type { Strip } from "../map/strip-format.js";
import type { Ask } from "../map/trials.js";
import type { Plan, TrialPlan } from "../plan/plan.js";
import { stripVariants } from "../plan/strip-variants.js";
import type { Axis, RequestedStrip } from "../sweep/sweep.js";
import { lineOf } from "./gains.js";
import { judgedStrip } from "./strip.js";

/** 1/s: least and most I over P, the rate at which I takes over. A third of a second to three beyond what stops a drift, or rings. */
const TAKEOVER = { from: 0.3, to: 20 };

/** What the strip's trials are simulated from. */
export function integralPlan(plan: Plan, axis: Axis, asked: RequestedStrip): TrialPlan {
  const { draws: _, ...own } = plan;
  return { ...own, variants: stripVariants(plan, asked.scripts, axis) };
}

/** `ask` simulates the variants of `trials`. The line begins at I 0, against which drift is read. */
export function integralStrip(
  plan: Plan,
  axis: Axis,
  { theory }: Pick<AxisReduction, "theory">,
  { p, d }: Pick<ConfirmedStart, "p" | "d">,
  asked: RequestedStrip,
  trials: TrialPlan,
  ask: Ask,
): Promise<Strip> {
  const { controller } = plan.airframe;
  const declared = controller[axis].i;
  const line = lineOf(TAKEOVER.from * p, TAKEOVER.to * p, asked.points, declared, I_UNIT);
  return judgedStrip({
    plan,
    kind: "i",
    asked,
    variants: trials.variants,
    gains: [...new Set([0, ...line])],
    declared,
    unit: I_UNIT,
    oneUnit: controller.scale?.i,
    request: (i) => ({ p, d, i }),
    margins: (i) => theory.margins(p, d, i),
    ask,
  });
}
