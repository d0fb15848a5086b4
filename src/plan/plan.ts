// Sweep and airframe resolved into one frozen, complete plan: every trial is (variant, P, D), every number SI.

import type { Airframe, AxisGains } from "../airframe/airframe.js";
import type { Trim } from "../airframe/powered.js";
import { at } from "../base/at.js";
import { digestOf } from "../base/digest.js";
import { deepFreeze } from "../base/freeze.js";
import type { Axis, RequestedSweep, Sweep, TestedAxis } from "../sweep/sweep.js";
import type { GainsByAxis } from "../theory/plant.js";
import { drawnPlaces } from "./drawn-places.js";
import type { PlanFault } from "./fault.js";
import {
  type LevelledVariant,
  type OperatingPoints,
  operatingPoints,
  type PlannedCondition,
} from "./operating-points.js";
import type { Place } from "./places.js";
import { plannedGrid, type SharedGrid } from "./planned-grid.js";
import { sharedTrim } from "./shared-trim.js";
import { chooseSubsteps, STEP_SHARE } from "./substeps.js";
import { lengthenTails, type SlowOscillations } from "./tails.js";

/** One script at one throttle level, commanded rate and condition, judged on one axis; its tail as long as this variant needs it. */
export interface TrialVariant extends Omit<LevelledVariant, "axis"> {
  readonly index: number;
  readonly axis: TestedAxis;
}

/** One of those that are simulated at every point of an axis's grid. */
export interface Variant extends TrialVariant {
  readonly axis: Axis;
}

/** What a trial is simulated from. */
export interface TrialPlan {
  readonly airframe: Airframe;
  readonly sweep: Sweep;
  readonly conditions: readonly PlannedCondition[];
  readonly variants: readonly TrialVariant[];
  /** Gains that hold the axes not under test; yaw's are the model's. */
  readonly holding: Readonly<Record<Axis, AxisGains>>;
  /** The same plan for models drawn from the spreads; only where a run simulates them. */
  readonly draws?: readonly TrialPlan[];
}

export interface Plan extends TrialPlan {
  readonly variants: readonly Variant[];
  /** What planning itself assumed, a readable line each. */
  readonly assumed: readonly string[];
  /** Per axis, only where oscillations at the edge of stability are too slow for a script as it is written. */
  readonly slow?: readonly SlowOscillations[];
  /** Lines or tails are those of a craft that this one is compared with. */
  readonly shared?: true;
  readonly digests: { readonly airframe: string; readonly sweep: string; readonly plan: string };
  readonly draws?: readonly Plan[];
}

/** What the sides of a comparison share, so that both answer the same question. */
export interface SharedPlan {
  /** Lines of the axes that the sweep leaves to the plan. */
  readonly grid?: SharedGrid;
  /** s, per variant: the least instant at which its tail may end. */
  readonly tailEnds?: readonly number[];
  /** Models drawn from the spreads, which lines that are left to the plan are to suit as well. */
  readonly drawn?: readonly Airframe[];
}

/** The plan, or the faults that forbid one. `points`: where they were found before. */
export function planSweep(
  airframe: Airframe,
  requested: RequestedSweep,
  shared?: SharedPlan,
  points: OperatingPoints | readonly PlanFault[] = operatingPoints(airframe, requested),
): Plan | readonly PlanFault[] {
  if (!("hold" in points)) return points;
  const { conditions, variants, places, hold } = points;
  const { holding } = hold;
  const byAxis = { ...holding, yaw: airframe.controller.yaw };
  const drawn = (shared?.drawn ?? []).flatMap((one) => {
    const own = drawnPlaces(airframe, one, conditions, variants);
    return own === null ? [] : [own];
  });
  const gridded = plannedGrid(airframe, requested, [places, ...drawn], byAxis, shared?.grid);
  if (!("sweep" in gridded)) return gridded;
  const { sweep } = gridded;
  const stepped = withSubsteps(airframe, sweep, places, byAxis);
  const tails = lengthenTails({ sweep, conditions, holding: byAxis }, variants, shared?.tailEnds);
  const plan = {
    airframe: stepped,
    sweep,
    conditions:
      stepped === airframe
        ? conditions
        : conditions.map(({ craft, ...rest }) => ({ ...rest, craft: { ...craft, airframe: stepped } })),
    variants: tails.variants.map((variant, index) => ({ index, ...variant })),
    holding,
    assumed: [...hold.assumed, ...gridded.assumed, ...tails.assumed],
    ...(tails.slow.length === 0 ? {} : { slow: tails.slow }),
    ...(gridded.shared || tails.assumed.length > 0 ? { shared: true as const } : {}),
    digests: { airframe: digestOf(stepped), sweep: sweepDigest(sweep), plan: "" },
  };
  const digest = digestOf({ ...plan, sweep: questionOf(sweep) });
  return deepFreeze({ ...plan, digests: { ...plan.digests, plan: digest } });
}

/** The airframe with its number of physics steps chosen where the model leaves it open. */
function withSubsteps(airframe: Airframe, sweep: Sweep, places: readonly Place[], holding: GainsByAxis): Airframe {
  if (airframe.controller.substeps !== null) return airframe;
  const substeps = chooseSubsteps(airframe, sweep, places, holding);
  const line = `controller.substeps: ${substeps}, chosen so that the time step moves the boundary by less than ${100 * STEP_SHARE} % of P`;
  return {
    ...airframe,
    controller: { ...airframe.controller, substeps },
    defaulted: [...airframe.defaulted, line],
  };
}

type Judged = "gates" | "gateJudge" | "skippedGates" | "baseline";

/** Gates judge a map and do not change it: the same trials, whatever they allow. */
function questionOf<S extends Partial<Pick<Sweep, Judged>>>(sweep: S): Omit<S, Judged> {
  const { gates: _, gateJudge: __, skippedGates: ___, baseline: ____, ...question } = sweep;
  return question;
}

/** The digest of a sweep in a map: of the question alone. */
export const sweepDigest = (sweep: Partial<Pick<Sweep, Judged>>): string => digestOf(questionOf(sweep));

/** The trim at a variant's swept throttle level, which its script need not start at. */
export const levelTrim = ({ conditions }: Plan, { condition, throttle }: Variant): Trim =>
  sharedTrim(at(conditions, condition).craft, throttle);
