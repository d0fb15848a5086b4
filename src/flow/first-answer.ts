// Theory's first answer to a sweep, with the part of the plan that it rests on.
import type { Airframe } from "../airframe/airframe.js";
import { type FirstAnswer, firstAnswer } from "../map/first-answer.js";
import { type OperatingPoints, operatingPoints } from "../plan/operating-points.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { planProblems } from "./plan-faults.js";
import type { WithDocument } from "./read.js";

/**
 * What theory says at once, and what planFor goes on from. Throws InputError where a condition cannot be simulated or an axis is
 * not stabilised.
 */
export function firstAnswerFor(
  airframe: WithDocument<Airframe>,
  sweep: WithDocument<RequestedSweep>,
): { readonly answer: FirstAnswer; readonly points: OperatingPoints } {
  const points = operatingPoints(airframe.value, sweep.value);
  if (!("hold" in points)) throw planProblems(points, airframe, sweep);
  return { answer: firstAnswer(airframe.value, sweep.value, points), points };
}
