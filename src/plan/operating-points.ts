// The first part of planning, from which theory can answer: the craft under each condition, every throttle level it is simulated at,
// and the gains that hold the axes not under test. Lines, steps and tails of the plan come after.
import type { Airframe } from "../airframe/airframe.js";
import { type Craft, craftUnder } from "../airframe/craft.js";
import { idleCommand } from "../airframe/duty.js";
import type { Trim } from "../airframe/powered.js";
import { hoverTrim } from "../airframe/trim.js";
import { at } from "../base/at.js";
import type { Axis, Condition, RequestedSweep, Script } from "../sweep/sweep.js";
import type { PlanFault } from "./fault.js";
import { type HoldingGains, holdingGains } from "./holding.js";
import { type Level, type Place, placesOf } from "./places.js";
import { sharedTrim } from "./shared-trim.js";
import { softHold } from "./soft-hold.js";
import { startThrottle } from "./start-throttle.js";
import { requestedVariants } from "./variants.js";

export interface PlannedCondition {
  readonly condition: Condition;
  readonly craft: Craft;
  readonly hover: Trim;
}

/** A variant of the sweep at the duty that its level means for the craft. */
export interface LevelledVariant {
  readonly script: Script;
  readonly axis: Axis;
  readonly throttle: number; // duty of the level, fraction
  readonly hovering: boolean; // the level was given as "hover"
  readonly rate: number; // rad/s
  readonly condition: number; // index into the conditions
  readonly trim: Trim; // at the script's first throttle
}

export interface OperatingPoints {
  readonly conditions: readonly PlannedCondition[];
  readonly variants: readonly LevelledVariant[];
  /** Every level under every condition, whatever the axis. */
  readonly places: readonly Place[];
  readonly hold: HoldingGains;
}

/** The operating points, or the faults that forbid a plan. */
export function operatingPoints(airframe: Airframe, requested: RequestedSweep): OperatingPoints | readonly PlanFault[] {
  const faults: PlanFault[] = [];
  const conditions = requested.conditions.flatMap((condition, index) => {
    const craft = craftUnder(airframe, condition);
    const hover = hoverTrim(craft);
    if (hover !== null) return [{ condition, craft, hover }];
    faults.push({
      file: "sweep",
      path: ["conditions", index],
      message: `"${condition.name}": ${airframe.name} cannot hover, even at full throttle; raise the charge or drop the payload`,
    });
    return [];
  });
  const [first] = conditions;
  if (faults.length > 0 || first === undefined) return faults;
  const variants = requestedVariants(requested).map(({ script, axis, level, rate, condition }) => {
    const { craft, hover } = at(conditions, condition);
    const throttle = level === "hover" ? hover.throttle : level;
    const trim = sharedTrim(craft, startThrottle(script, throttle, idleCommand(airframe)));
    return { script, axis, throttle, hovering: level === "hover", rate, condition, trim };
  });
  const places = placesOf(levelsOf(variants, conditions));
  const soft = (axis: Axis) => softHold(first.craft, first.hover, axis);
  const hold = holdingGains(airframe, places, { roll: soft("roll"), pitch: soft("pitch") });
  return "holding" in hold ? { conditions, variants, places, hold } : hold;
}

/** Every throttle level under every condition, each once. */
function levelsOf(variants: readonly LevelledVariant[], conditions: readonly PlannedCondition[]): Level[] {
  const levels = new Map<string, Level>();
  for (const { throttle, hovering, condition: place } of variants) {
    const { craft, condition } = at(conditions, place);
    const trim = sharedTrim(craft, throttle);
    levels.set(`${place} ${throttle}`, { throttle, hovering, condition: condition.name, craft, trim });
  }
  return [...levels.values()];
}
