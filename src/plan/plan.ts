// Sweep and airframe resolved into one frozen, complete plan: every trial is (variant, P, D), every number SI.
import type { Airframe, AxisGains } from "../airframe/airframe.js";
import { type Craft, craftUnder } from "../airframe/craft.js";
import { hoverTrim, type Trim, trimAt } from "../airframe/trim.js";
import { digestOf } from "../base/canonical.js";
import { deepFreeze } from "../base/freeze.js";
import type { Axis, Condition, Script, Sweep } from "../sweep/sweep.js";
import { holdingGains } from "./holding.js";
import { askedVariants } from "./variants.js";

/** One script at one throttle level, commanded rate and condition, judged on one axis. */
export interface Variant {
  readonly index: number;
  readonly script: Script;
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
  const variants = askedVariants(sweep).map(({ script, axis, level, rate, condition }) => {
    const { craft, hover } = conditions[condition] as PlannedCondition;
    const throttle = level === "hover" ? hover.throttle : level;
    const trim = trimAt(craft, startThrottle(script, throttle, airframe.controller.idle));
    return { script, axis, throttle, hovering: level === "hover", rate, condition, trim };
  });
  const plan = {
    airframe,
    sweep,
    conditions,
    variants: variants.map((variant, index) => ({ index, ...variant })),
    holding: {
      roll: holdingGains(first.craft, first.hover, "roll"),
      pitch: holdingGains(first.craft, first.hover, "pitch"),
    },
    digests: { airframe: digestOf(airframe), sweep: sweepDigest(sweep), plan: "" },
  };
  const digest = digestOf({ ...plan, sweep: askedOf(sweep) });
  return deepFreeze({ ...plan, digests: { ...plan.digests, plan: digest } });
}

type Judged = "gates" | "baseline";

/** Gates judge a map and do not change it: the same trials, whatever they allow. */
function askedOf<S extends Partial<Pick<Sweep, Judged>>>(sweep: S): Omit<S, Judged> {
  const { gates: _, baseline: __, ...asked } = sweep;
  return asked;
}

/** The digest a map keeps of its sweep: of the question alone. */
export const sweepDigest = (sweep: Partial<Pick<Sweep, Judged>>): string => digestOf(askedOf(sweep));

const startThrottle = (script: Script, level: number, idle: number): number => {
  const value = script.throttle[0]?.[1] ?? { kind: "level", plus: 0 };
  if (value.kind === "idle") return idle;
  return value.kind === "duty" ? value.duty : level + value.plus;
};

/** The trim at a variant's swept throttle level, which its script need not start at. */
export const levelTrim = ({ conditions }: Plan, { condition, throttle }: Variant): Trim =>
  trimAt(conditions[condition].craft, throttle);
