// A share of a plan's trials: what one machine of several simulates. Every n-th task of the grid, so that long scripts spread evenly,
// and every n-th draw.
import type { Task } from "./task.js";

/** More machines than that are a slip of the keyboard. */
export const MOST_SHARES = 10_000;

export interface Share {
  readonly index: number; // from 1
  readonly of: number;
}

export const tasksOfShare = (tasks: readonly Task[], { index, of }: Share): Task[] =>
  tasks.filter((_, at) => at % of === index - 1);

/** Indices of the share's draws among so many. */
export const drawsOfShare = (draws: number, { index, of }: Share): number[] =>
  Array.from({ length: draws }, (_, draw) => draw).filter((draw) => draw % of === index - 1);
