// Schema parts for files of ours that are read back: messages say what was expected, unknown keys are accepted. A file may
// be wrong in millions of places, so lists and records stop at the number of problems that is reported.
import { z } from "zod";
import { describeValue, siOf } from "./fields.js";
import { MOST_PROBLEMS } from "./problem.js";
import type { Kind } from "./units.js";

export const expecting = (expected: string) => ({
  error: (issue: { readonly input?: unknown }) => fault(expected, issue.input),
});

const fault = (expected: string, found: unknown): string =>
  found === undefined ? "missing" : `expected ${expected}, found ${describeValue(found)}`;

export const number = () => z.number(expecting("a number"));
export const int = () => z.int(expecting("a whole number"));
export const text = () => z.string(expecting("a text"));
export const bool = () => z.boolean(expecting("true or false"));
export const object = <S extends z.core.$ZodLooseShape>(shape: S) => z.looseObject(shape, expecting("a group of keys"));

/** A list, of at most `most` items, which are counted before any of them is checked. */
export const list = <S extends z.ZodType>(item: S, most = Number.POSITIVE_INFINITY): z.ZodType<z.output<S>[]> =>
  z.unknown().transform((written, context): z.output<S>[] => {
    if (!Array.isArray(written)) return refused(context, written, fault("a list", written));
    if (written.length > most) return refused(context, written, `${written.length} items, expected at most ${most}`);
    let read: unknown[] = written;
    for (let at = 0; at < written.length; at++) {
      const value = parseItem(item, written[at], at, context);
      if (context.issues.length >= MOST_PROBLEMS) return z.NEVER;
      // a list of numbers, as nearly all are, is used as it was read
      if (read === written && value !== written[at]) read = written.slice(0, at);
      if (read !== written) read.push(value);
    }
    return read as z.output<S>[];
  }) as unknown as z.ZodType<z.output<S>[]>;

/** Any keys with values of one kind. */
export const record = <S extends z.ZodType>(item: S, expected: string): z.ZodType<Record<string, z.output<S>>> =>
  z.unknown().transform((written, context): Record<string, z.output<S>> => {
    if (typeof written !== "object" || written === null || Array.isArray(written))
      return refused(context, written, fault(expected, written));
    const read: [string, z.output<S>][] = [];
    for (const [key, value] of Object.entries(written)) {
      read.push([key, parseItem(item, value, key, context)]);
      if (context.issues.length >= MOST_PROBLEMS) return z.NEVER;
    }
    return Object.fromEntries(read);
  }) as unknown as z.ZodType<Record<string, z.output<S>>>;

type Context = z.core.$RefinementCtx;

function parseItem<S extends z.ZodType>(item: S, written: unknown, at: string | number, context: Context): z.output<S> {
  const result = item.safeParse(written);
  if (result.success) return result.data;
  for (const { message, path } of result.error.issues)
    context.issues.push({ code: "custom", message, path: [at, ...path], input: written });
  return z.NEVER;
}

function refused(context: Context, written: unknown, message: string): never {
  context.issues.push({ code: "custom", message, input: written });
  return z.NEVER;
}

/** A number from `least` to `most`, both included. */
export const within = (least: number, most: number) => number().refine(...inRange(least, most));

/** A whole number from `least` to `most`. */
export const counted = (least: number, most: number) => int().refine(...inRange(least, most));

function inRange(least: number, most: number) {
  const error = ({ input }: { readonly input?: unknown }) => `${input} is out of range, expected ${least} to ${most}`;
  return [(value: number) => value >= least && value <= most, { error }] as const;
}

/** A number above 0. */
export const positive = () => number().refine((value) => value > 0, expecting("a number above 0"));

/** A list of `least` to `most` items. */
export const listOf = <S extends z.ZodType>(item: S, least: number, most: number) =>
  list(item, most).refine(({ length }) => length >= least && length <= most, {
    error: ({ input }) => `${(input as readonly unknown[]).length} items, expected ${least} to ${most}`,
  });

/** A quantity in SI, in a range that is given with units. */
export const between = (kind: Kind, least: string, most: string) => within(siOf(least, kind), siOf(most, kind));
