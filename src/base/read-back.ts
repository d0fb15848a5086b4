// The few shapes that files of ours are made of when they are read back: what was expected is said, keys nobody knows
// are kept.
import { z } from "zod";
import { shown, siOf } from "./fields.js";
import type { Kind } from "./units.js";

export const told = (expected: string) => ({
  error: (issue: { readonly input?: unknown }) =>
    issue.input === undefined ? "missing" : `expected ${expected}, found ${shown(issue.input)}`,
});

export const number = () => z.number(told("a number"));
export const whole = () => z.int(told("a whole number"));
export const text = () => z.string(told("a text"));
export const yes = () => z.boolean(told("true or false"));
export const list = <S extends z.ZodType>(item: S) => z.array(item, told("a list"));
export const part = <S extends z.core.$ZodLooseShape>(shape: S) => z.looseObject(shape, told("a group of keys"));

/** A number from `least` to `most`, both included. */
export const within = (least: number, most: number) => number().refine(...inRange(least, most));

/** A whole number from `least` to `most`. */
export const counted = (least: number, most: number) => whole().refine(...inRange(least, most));

function inRange(least: number, most: number) {
  const error = ({ input }: { readonly input?: unknown }) => `${input} is out of range, expected ${least} to ${most}`;
  return [(value: number) => value >= least && value <= most, { error }] as const;
}

/** A number above 0. */
export const positive = () => number().refine((value) => value > 0, told("a number above 0"));

/** A list of `least` to `most` items. */
export const listOf = <S extends z.ZodType>(item: S, least: number, most: number) =>
  list(item).refine(({ length }) => length >= least && length <= most, {
    error: ({ input }) => `${(input as readonly unknown[]).length} items, expected ${least} to ${most}`,
  });

/** A quantity in SI, in a range that is given in people's units. */
export const between = (kind: Kind, least: string, most: string) => within(siOf(least, kind), siOf(most, kind));
