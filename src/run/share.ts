// A share of a plan's grid: what one machine of several simulates. Every n-th task, so that long scripts spread evenly.
import type { Task } from "./task.js";

/** More machines than that are a slip of the keyboard. */
export const MOST_SHARES = 10_000;

export interface Share {
  readonly index: number; // from 1
  readonly of: number;
}

export const tasksOfShare = (tasks: readonly Task[], { index, of }: Share): Task[] =>
  tasks.filter((_, at) => at % of === index - 1);
