// What options are given as text, as the values they mean. A fault of usage is commander's own error.
import { InvalidArgumentError } from "commander";
import { fileProblem, InputError } from "../base/problem.js";
import { MOST_SHARES, type Share } from "../run/share.js";
import { DATE_WORDS, dateFault } from "../trend/date.js";
import { AXES, type Axis } from "../words/axes.js";

export function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (Number.isInteger(value) && value >= least && value <= most) return value;
    throw new InvalidArgumentError(`expected a whole number from ${least} to ${most}.`);
  };
}

export function axisName(text: string): Axis {
  const axis = AXES.find((one) => one === text);
  if (axis !== undefined) return axis;
  throw new InvalidArgumentError(`expected ${AXES.join(" or ")}.`);
}

export function folderName(text: string): string {
  if (text.trim() !== "") return text;
  throw new InvalidArgumentError('expected a folder; "." is the one you are in.');
}

export function dateText(text: string): string {
  if (dateFault(text) === null) return text;
  throw new InvalidArgumentError(`expected ${DATE_WORDS}.`);
}

/** "2/4" as a share. */
export function shareOf(text: string): Share {
  const [, index, of] = /^(\d{1,5})\/(\d{1,5})$/.exec(text)?.map(Number) ?? [];
  if (index !== undefined && of !== undefined && index >= 1 && index <= of && of <= MOST_SHARES) return { index, of };
  throw new InvalidArgumentError(`expected a share as 2/4, of at most ${MOST_SHARES}.`);
}

/** Each is one more. */
export const collected = (text: string, earlier: readonly string[] | undefined): readonly string[] => [
  ...(earlier ?? []),
  text,
];

/** For commands whose results others are judged by: a change is a question, never a craft. */
export function refuseChanges(what: string): never {
  const message = `${what} is the map of a model's file; expected a file that holds the change, with a version of its own`;
  throw new InputError([fileProblem("--set", message)]);
}

/** A folder of grids is for a share of the draws, and for nothing else. */
export function refuseGridAlone({ grid, shard }: { readonly grid?: string; readonly shard?: Share }): void {
  if (grid === undefined || shard !== undefined) return;
  throw new InputError([fileProblem("--grid", "is for a share of the draws; expected --shard i/n beside it")]);
}
