// The plan of a sweep for a model drawn from the spreads. The controller does not know the draw: mixer, holding gains,
// gains and fixed filters are those of the model as it is written; hover throttle and rotor speeds are the draw's own.
import type { Airframe } from "../airframe/airframe.js";
import { idleCommand } from "../airframe/duty.js";
import type { Trim } from "../airframe/powered.js";
import { trimAt } from "../airframe/trim.js";
import { at } from "../base/at.js";
import { drawnConditions, underController } from "./drawn-places.js";
import type { Plan, Variant } from "./plan.js";
import { startThrottle } from "./start-throttle.js";

/**
 * Null where the drawn craft cannot hover under a condition. `trimmed` says which variants are to be simulated; others keep the
 * start of the model as it is written.
 */
export function drawnPlanOf(
  plan: Plan,
  drawn: Airframe,
  trimmed: (variant: Variant) => boolean = () => true,
): Plan | null {
  const airframe = underController(plan.airframe, drawn);
  const conditions = drawnConditions(airframe, plan.conditions);
  if (conditions === null) return null;
  const trims = new Map<string, Trim>();
  const variants = plan.variants.map((variant) => {
    const { craft, hover } = at(conditions, variant.condition);
    const throttle = variant.hovering ? hover.throttle : variant.throttle;
    if (!trimmed(variant)) return { ...variant, throttle };
    const duty = startThrottle(variant.script, throttle, idleCommand(airframe));
    const key = `${variant.condition} ${duty}`;
    const trim = trims.get(key) ?? trimAt(craft, duty);
    trims.set(key, trim);
    return { ...variant, throttle, trim };
  });
  return { ...plan, airframe, conditions, variants };
}
