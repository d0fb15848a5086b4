// The trials of a grid that diverged, read off the results.
import { at } from "../base/at.js";
import type { DivergedTrial } from "../map/diverged.js";
import { OUTCOMES, type Task, type TaskResult } from "../run/task.js";

const DIVERGED = OUTCOMES.indexOf("diverged");

/** `results` in the order of the tasks. */
export const divergedTrials = (tasks: readonly Task[], results: readonly TaskResult[]): DivergedTrial[] =>
  results.flatMap(({ outcome, until }, place) => {
    const { variant, p, d } = at(tasks, place);
    return [...outcome.keys()]
      .filter((trial) => outcome[trial] === DIVERGED)
      .map((trial) => ({ variant, p: at(p, trial), d: at(d, trial), after: at(until, trial) }));
  });
