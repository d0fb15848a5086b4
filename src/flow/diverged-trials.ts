// The trials of a grid that diverged, read off the results.
import { at } from "../base/at.js";
import type { DivergedTrial } from "../map/diverged.js";
import { OUTCOMES } from "../run/task.js";
import type { DoneTask } from "./grid-run.js";

const DIVERGED = OUTCOMES.indexOf("diverged");

export const divergedTrials = (done: readonly DoneTask[]): DivergedTrial[] =>
  done.flatMap(({ task: { variant, p, d }, result: { outcome, until } }) =>
    [...outcome.keys()]
      .filter((trial) => outcome[trial] === DIVERGED)
      .map((trial) => ({ variant, p: at(p, trial), d: at(d, trial), after: at(until, trial) })),
  );
