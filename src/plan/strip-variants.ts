// The variants of a strip: every use of its scripts, at each throttle level, rate and condition.
import { at } from "../base/at.js";
import type { ScriptUse, TestedAxis } from "../sweep/sweep.js";
import type { Plan, TrialVariant } from "./plan.js";
import { sharedTrim } from "./shared-trim.js";
import { startThrottle } from "./start-throttle.js";

/** Numbered from 0; a strip about yaw tests yaw by each of its scripts, one about roll or pitch by those that name the axis. */
export function stripVariants(plan: Plan, uses: readonly ScriptUse[], axis: TestedAxis): TrialVariant[] {
  const { idle } = plan.airframe.controller;
  const mine = axis === "yaw" ? uses : uses.filter(({ script }) => script.axes.includes(axis));
  const all = mine.flatMap(({ script, throttle: levels, rates }) =>
    levels.flatMap((level) =>
      rates.flatMap((rate) =>
        plan.conditions.map((_, condition) => {
          const { craft, hover } = at(plan.conditions, condition);
          const throttle = level === "hover" ? hover.throttle : level;
          const trim = sharedTrim(craft, startThrottle(script, throttle, idle));
          return { script, axis, throttle, hovering: level === "hover", rate, condition, trim };
        }),
      ),
    ),
  );
  return all.map((variant, index) => ({ index, ...variant }));
}
