// What a sweep command asks: the sweep, the model it is asked of, and the plan that they make.
import type { Airframe } from "../airframe/airframe.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { changedModel } from "./changed-model.js";
import { modelOf, readAirframe, readSweep, type WithDocument } from "./read.js";

/** Before it is planned. */
export interface SweepQuestion {
  readonly sweep: WithDocument<RequestedSweep>;
  readonly model: WithDocument<Airframe>;
}

/** `set`: each "key=value", set anew in the model. InputError with every problem of the files. */
export function sweepQuestion(path: string, modelFile?: string, set: readonly string[] = []): SweepQuestion {
  const sweep = readSweep(path);
  return { sweep, model: changedModel(readAirframe(modelFile ?? modelOf(sweep)), set) };
}
