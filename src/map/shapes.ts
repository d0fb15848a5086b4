// What several parts of map.json are made of, for reading it back.
import { z } from "zod";
import { expecting, number, object, record, text } from "../base/read-back.js";

/** A value for each axis. Other keys are dropped, so that a loop over the axes never meets a third one. */
export const perAxis = <S extends z.core.$ZodLooseShape>(shape: S) => z.object(shape, expecting("a group of keys"));

export const axis = () => z.enum(["roll", "pitch"], expecting("roll or pitch"));
export const limitingCase = { script: text(), throttle: number(), rate: number(), condition: text() };
export const gains = () => object({ p: number(), d: number() });
/** Values of some measures; null: absent. */
export const measuredValues = () => record(number().nullable(), "a group of measures");
