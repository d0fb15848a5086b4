// The shipped Sandpiper beside the one made from twelve answers: sustained boundaries by theory.

import type { Airframe } from "../../src/airframe/airframe.js";
import { D_UNIT } from "../../src/base/units.js";
import { readYaml } from "../../src/files/yaml.js";
import { readAnswers } from "../../src/flow/answers.js";
import { newModel } from "../../src/flow/new-model.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { ultimateGain } from "../../src/theory/boundary.js";

export const ANSWERS = "models/answers/sandpiper.yaml";
export const THROTTLES = ["hover", 0.7] as const;
export const AXES = ["roll", "pitch"] as const;

/** The Sandpiper that its builders would have got from the kitchen scale. */
export const estimatedSandpiper = () => newModel(readAnswers(ANSWERS, {}), ANSWERS);

/** P at which the oscillation no longer dies out, fraction per (rad/s), at D 1 %/(1000 deg/s^2) and fresh pack. */
export function boundaryOf(airframe: Airframe, axis: "roll" | "pitch", throttle: number | "hover"): number {
  // As exact: the grid's lines, which would be drawn for from a file, decide nothing here.
  const { spreads: _, ...exact } = airframe;
  const plan = planFor({ value: exact, document: readYaml("model.yaml", "{}") }, readSweep("sweeps/first-tune.yaml"));
  const [{ craft }] = plan.conditions;
  const variant = plan.variants.find(
    (one) =>
      one.axis === axis &&
      one.condition === 0 &&
      (throttle === "hover" ? one.hovering : !one.hovering && one.throttle === throttle),
  );
  if (variant === undefined) throw new Error(`the sweep has no ${axis} at ${throttle}`);
  const holding = { ...plan.holding, yaw: airframe.controller.yaw };
  const pieces = axisPieces(craft, variant.trim, axis, holding);
  const d = D_UNIT;
  const [first] = ultimateGain(pieces, d, airframe.controller[axis].i, { from: 0, to: 10 }).filter(
    (one) => one.perGrowth > 0,
  );
  return first?.p ?? Number.NaN;
}

export const shippedSandpiper = (): Airframe => readAirframe("models/sandpiper-r1.yaml").value;
