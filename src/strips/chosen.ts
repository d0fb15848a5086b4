// The gains that strips put in place of the model's own, for whatever is simulated as a pilot sets the craft.
import { I_UNIT, P_UNIT } from "../base/units.js";
import type { Strip, Strips } from "../map/strip-format.js";
import type { Plan } from "../plan/plan.js";

/** The plan with yaw's P and the I of roll and pitch as their strips say to take them; the same plan where none is replaced. */
export function withChosenGains(plan: Plan, { yaw, i }: Strips = {}): Plan {
  const { controller } = plan.airframe;
  const chosen = {
    yaw: { ...controller.yaw, p: chosenGain(yaw, P_UNIT) ?? controller.yaw.p },
    roll: { ...controller.roll, i: chosenGain(i?.roll, I_UNIT) ?? controller.roll.i },
    pitch: { ...controller.pitch, i: chosenGain(i?.pitch, I_UNIT) ?? controller.pitch.i },
  };
  const replaced = [yaw, i?.roll, i?.pitch].some((strip) => chosenGain(strip, 1) !== null);
  return replaced ? { ...plan, airframe: { ...plan.airframe, controller: { ...controller, ...chosen } } } : plan;
}

/** SI; null where the model's own passes, or nothing does. */
function chosenGain(strip: Strip | undefined, unit: number): number | null {
  if (strip === undefined || strip.choice === null || strip.choice === strip.declared) return null;
  return strip.choice * unit;
}
