// Sweep and airframe resolved into one frozen, complete plan: every trial is (variant, P, D), every number SI.
import type { Airframe, AxisGains } from "../airframe/airframe.js";
import { type Craft, craftUnder } from "../airframe/craft.js";
import { hoverTrim, type Trim, trimAt } from "../airframe/trim.js";
import { digestOf } from "../base/canonical.js";
import { deepFreeze } from "../base/freeze.js";
import type { Axis, Condition, Script, Sweep } from "../sweep/sweep.js";
import { dutyOf } from "./duty.js";
import { holdingGains } from "./holding.js";
import { longEnough, type SlowOscillations } from "./tails.js";

/** One script at one throttle level, commanded rate and condition, judged on one axis. */
export interface Variant {
  readonly index: number;
  readonly script: Script; // its tail as long as this variant needs it
  readonly axis: Axis;
  readonly throttle: number; // duty of the level, fraction
  readonly hovering: boolean; // the level was given as "hover"
  readonly rate: number; // rad/s
  readonly condition: number; // index into Plan.conditions
  readonly trim: Trim; // at the script's first throttle
}

export interface PlannedCondition {
  readonly condition: Condition;
  readonly craft: Craft;
  readonly hover: Trim;
}

export interface Plan {
  readonly airframe: Airframe;
  readonly sweep: Sweep;
  readonly conditions: readonly PlannedCondition[];
  readonly variants: readonly Variant[];
  /** Gains that hold the axis not under test. */
  readonly holding: Readonly<Record<Axis, AxisGains>>;
  /** Per axis, only where oscillations at the edge of stability are too slow for a script as it is written. */
  readonly slow?: readonly SlowOscillations[];
  readonly digests: { readonly airframe: string; readonly sweep: string; readonly plan: string };
}

/** A sweep that cannot be flown by this airframe; `path` is the place in the sweep file. */
export interface PlanFault {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

/** The plan, or the faults that forbid one. */
export function planSweep(airframe: Airframe, sweep: Sweep): Plan | readonly PlanFault[] {
  const faults: PlanFault[] = [];
  const conditions = sweep.conditions.flatMap((condition, index) => {
    const craft = craftUnder(airframe, condition);
    const hover = hoverTrim(craft);
    if (hover !== null) return [{ condition, craft, hover }];
    faults.push({
      path: ["conditions", index],
      message: `"${condition.name}": ${airframe.name} cannot hover, even at full throttle; raise the charge or drop the payload`,
    });
    return [];
  });
  const [first] = conditions;
  if (faults.length > 0 || first === undefined) return faults;
  const variants = sweep.scripts.flatMap((use) =>
    use.script.axes.flatMap((axis) =>
      use.throttle.flatMap((level) =>
        use.rates.flatMap((rate) =>
          conditions.map(({ craft, hover }, condition) => {
            const throttle = level === "hover" ? hover.throttle : level;
            const start = startThrottle(use.script, throttle, airframe.controller.idle);
            const trim = trimAt(craft, start);
            return { script: use.script, axis, throttle, hovering: level === "hover", rate, condition, trim };
          }),
        ),
      ),
    ),
  );
  const holding = {
    roll: holdingGains(first.craft, first.hover, "roll"),
    pitch: holdingGains(first.craft, first.hover, "pitch"),
  };
  const tails = longEnough({ sweep, conditions, holding: { ...holding, yaw: airframe.controller.yaw } }, variants);
  // Gates judge a map and do not change it: the same flights, whatever they allow.
  const { gates: _, baseline: __, ...asked } = sweep;
  const plan = {
    airframe,
    sweep,
    conditions,
    variants: tails.variants.map((variant, index) => ({ index, ...variant })),
    holding,
    ...(tails.slow.length === 0 ? {} : { slow: tails.slow }),
    digests: { airframe: digestOf(airframe), sweep: digestOf(asked), plan: "" },
  };
  const digest = digestOf({ ...plan, sweep: asked });
  return deepFreeze({ ...plan, digests: { ...plan.digests, plan: digest } });
}

const startThrottle = (script: Script, level: number, idle: number): number =>
  dutyOf(script.throttle[0]?.[1] ?? { kind: "level", plus: 0 }, level, idle);

/** The trim at a variant's swept throttle level, which its script need not start at. */
export const levelTrim = ({ conditions }: Plan, { condition, throttle }: Variant): Trim =>
  trimAt(conditions[condition].craft, throttle);
