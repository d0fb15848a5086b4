// Tasks that travel to a worker in one message: a message takes as long as a trial, so that those of few trials go together.
import type { Task } from "./task.js";

const MOST_TASKS = 12;
/** Trials: where there are as many as in one task of a grid, a message is cheap. */
const MOST_TRIALS = 64;
/** Messages per worker at least, so that all of them end at about the same moment. */
const MESSAGES_PER_WORKER = 8;

/** Neighbours together, by their places: those of one draw or variant share what a worker has set up. */
export function bundlesOf(tasks: readonly Pick<Task, "p">[], workers: number): number[][] {
  const most = Math.min(MOST_TASKS, Math.ceil(tasks.length / (workers * MESSAGES_PER_WORKER)));
  const bundles: number[][] = [];
  let trials = 0;
  for (const [place, { p }] of tasks.entries()) {
    const bundle = bundles.at(-1);
    trials += p.length;
    if (bundle !== undefined && bundle.length < most && trials <= MOST_TRIALS) bundle.push(place);
    else {
      bundles.push([place]);
      trials = p.length;
    }
  }
  return bundles;
}
