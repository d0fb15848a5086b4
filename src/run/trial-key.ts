// Everything the results of a task depend on, as one content key: the code that simulates and measures it, the craft under its
// condition, the script as it is varied, the seed and the gains. Names and titles that change no trial are left out,
// so are the place in the plan and everything that only judges.
import { digestOf, hex, sha256 } from "../base/digest.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import { drawnPlan } from "./drawn-plan.js";
import type { Task } from "./task.js";

/** A key, 64 hexadecimal digits, for each task of the plan. `code` is the digest of the code that runs tasks. */
export function taskKeys(plan: TrialPlan, code: string): (task: Task) => string {
  const variantKeys = new Map<string, string>();
  return ({ variant, p, d, i, seed = plan.sweep.seed, draw }) => {
    const place = `${variant} ${seed} ${draw ?? ""}`;
    let key = variantKeys.get(place);
    if (key === undefined) {
      key = digestOf({ code, ...trialInputs(plan, variant), ...drawInputs(plan, variant, draw), seed });
      variantKeys.set(place, key);
    }
    return hex(sha256(key, bytesOf(p), bytesOf(d), ...(i === undefined ? [] : ["I", bytesOf(i)])));
  };
}

/** A draw reads the bursts of the model as it is written, and all else from its own plan. */
const drawInputs = (plan: TrialPlan, variant: number, draw: number | undefined) =>
  draw === undefined ? {} : { draw: trialInputs(drawnPlan(plan, { draw }), variant) };

/** Every value of the plan that a trial of the variant may read, besides its gains. */
export function trialInputs(plan: TrialPlan, index: number) {
  const variant = plan.variants[index];
  const planned = plan.conditions[variant?.condition ?? -1];
  if (variant === undefined || planned === undefined) throw new RangeError(`no variant ${index}`);
  const { airframe, ...craft } = planned.craft;
  return {
    seed: plan.sweep.seed,
    holding: plan.holding,
    condition: planned.condition.name,
    hover: planned.hover,
    airframe: physicsOf(airframe),
    craft,
    ...variantInputs(variant),
  };
}

const physicsOf = ({
  name: _,
  version: __,
  title: ___,
  defaulted: ____,
  spreads: _____,
  correlations: ______,
  changed: _______,
  ...physics
}: TrialPlan["airframe"]) => physics;

function variantInputs({ script, axis, throttle, rate, trim }: TrialVariant) {
  const { title: _, axes: __, ...rest } = script;
  return { script: rest, axis, throttle, rate, trim };
}

const bytesOf = ({ buffer, byteOffset, byteLength }: Float64Array): Uint8Array =>
  new Uint8Array(buffer, byteOffset, byteLength);
