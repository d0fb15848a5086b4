// What stands in the way of axes without a starting tune, found by trials in this thread: there are few of them.
import { startCauses } from "../causes/causes.js";
import type { AxisReduction } from "../map/axis.js";
import type { StartCause } from "../map/start-cause.js";
import type { Plan } from "../plan/plan.js";
import { RunIncomplete } from "../run/incomplete.js";
import { serialRunner } from "../run/runner.js";
import type { Axis } from "../sweep/sweep.js";
import { askOf } from "./ask.js";
import type { RunnerChoice } from "./runner.js";
import type { TrackingOptions } from "./tracked-runs.js";

type Options = Pick<RunnerChoice, "cache"> & Pick<TrackingOptions, "signal">;

/** Per axis the likeliest first; none of an axis that has a start, or safe points of its grid. */
export async function causesWhereNoStart(
  plan: Plan,
  axes: Readonly<Record<Axis, AxisReduction>>,
  { signal, cache }: Options,
): Promise<Record<Axis, StartCause[]>> {
  const simulated = (changed: Plan) => {
    const runner = serialRunner(changed);
    return askOf((tasks) => runner.run(tasks, signal === undefined ? {} : { signal }));
  };
  const causes = async (axis: Axis) =>
    axes[axis].start !== null || axes[axis].safe.some(Boolean) ? [] : startCauses(plan, axis, axes[axis], simulated);
  try {
    return { roll: await causes("roll"), pitch: await causes("pitch") };
  } catch (error) {
    if (!(error instanceof RunIncomplete)) throw error;
    // the map's own trials are all there
    throw new RunIncomplete(error.reason, error.missing, cache !== undefined);
  }
}
