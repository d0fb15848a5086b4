// What the model and plan in a map must hold. To read, draw and compare a map little is enough; to simulate its trials
// again in the page everything that this version's kernel reads must be there, in the formats it knows.
import { z } from "zod";
import type { Airframe } from "../airframe/airframe.js";
import { storedModel } from "../airframe/stored-shape.js";
import { type Path, pathText } from "../base/problem.js";
import { object } from "../base/read-back.js";
import { storedPlan } from "../plan/stored-shape.js";

/** The format of a map's resolved model and plan: their numbers change with the keys a simulation reads. */
const MODEL_FORMATS = ["gainscape.resolved-model/1", "gainscape.resolved-model/2"] as const;
export const PLAN_FORMAT = "gainscape.resolved-plan/1";

/** The lowest number whose readers know all that the model holds: 2 adds what not every controller has. */
export function modelFormat({ sensing, controller }: Airframe): string {
  const later = [
    sensing.notch,
    sensing.lowPassSchedule,
    sensing.trackingNotch,
    controller.derivativeNotch,
    controller.derivativeFilterSchedule,
    controller.derivativeTrackingNotch,
    controller.commandLowPass,
    controller.feedForward,
    controller.packCompensation,
    controller.dutyTable,
    controller.gainSchedule,
  ];
  return MODEL_FORMATS[later.every((one) => one === undefined) ? 0 : 1];
}

/** As any version writes them; what they hold is of the right shape, but may be a part. */
export const storedQuestion = object({ model: storedModel(), plan: storedPlan() });

/** What reading, drawing and comparing need; all the rest may be missing. */
const NEEDED: readonly RegExp[] = [
  /^model(\.(name|version))?$/,
  /^plan(\.(digest|variants(\.\d+(\.hovering)?)?))?$/,
  /^plan\.sweep(\.(name|seed|limits|grid(\..+)?|margins(\..+)?|pinned(\..+)?))?$/,
  /^plan\.sweep\.scripts(\.\d+(\.(throttle|rates|script(\.(name|kind|axes))?))?)?$/,
  /^plan\.sweep\.conditions(\.\d+(\.name)?)?$/,
];

/** Whether a map may lack the key: it is then drawn without what is simulated in the page. */
export const mayBeMissing = (path: Path): boolean => !NEEDED.some((needed) => needed.test(path.join(".")));

const completeModel = object({ format: z.enum(MODEL_FORMATS) }).and(storedModel());

const complete = object({
  model: completeModel,
  plan: object({ format: z.literal(PLAN_FORMAT) }).and(storedPlan().required({ holding: true, conditions: true })),
});

/** The model of a map as an airframe, null where it lacks what this version reads of one. */
export function storedAirframe({ model }: { readonly model: unknown }): Airframe | null {
  return completeModel.safeParse(model).success ? (withoutFormat(model as object) as Airframe) : null;
}

/** Keys of a variant that a simulation needs, and every baseline lacks. */
const OF_VARIANT = ["index", "script", "axis", "throttle", "rate", "condition", "trim"] as const;

/** The first key that is not there, or not as this version reads it; null where a page can simulate the map's trials. */
export function missingToSimulate({ model, plan }: { readonly model: unknown; readonly plan: unknown }): string | null {
  const result = complete.safeParse({ model, plan });
  if (!result.success) return pathText((result.error.issues[0]?.path ?? []) as Path);
  const { variants } = result.data.plan;
  for (const [at, variant] of variants.entries())
    for (const key of OF_VARIANT) if (variant[key] === undefined) return pathText(["plan", "variants", at, key]);
  return null;
}

/** A model or plan as it was resolved: its digest is made without the format. */
export function withoutFormat(stored: object): object {
  const { format: _, ...resolved } = stored as { readonly format?: unknown };
  return resolved;
}
