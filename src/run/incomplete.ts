// A run that could not finish: an error of its own, so that whoever reports it loads nothing that simulates.
import type { Task } from "./task.js";

/** A run that ended before all tasks did: interrupted, a worker lost, or a task over its time. */
export class RunIncomplete extends Error {
  override readonly name = "RunIncomplete";
  constructor(
    readonly reason: string,
    readonly missing: readonly Task[],
    /** Finished tasks are cached: the same run continues from there. */
    readonly resumable = false,
    /** The missing tasks in words. */
    readonly details: readonly string[] = [],
  ) {
    super(reason);
  }
}
