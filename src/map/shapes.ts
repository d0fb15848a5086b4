// The few shapes that files of ours are made of when they are read back: what was expected is said, keys nobody knows
// are kept.
import { z } from "zod";
import { shown } from "../base/fields.js";

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

/** A value for each axis. Other keys are dropped: who walks over the axes must meet no third one. */
export const perAxis = <S extends z.core.$ZodLooseShape>(shape: S) => z.object(shape, told("a group of keys"));

export const axis = () => z.enum(["roll", "pitch"], told("roll or pitch"));
export const culprit = { script: text(), throttle: number(), rate: number(), condition: text() };
export const gains = () => part({ p: number(), d: number() });
/** Values of some measures; null: absent. */
export const seen = () => z.record(text(), number().nullable(), told("a group of measures"));
