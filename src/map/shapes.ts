// What several parts of map.json are made of, for reading it back.
import { z } from "zod";
import { number, part, record, text, told } from "../base/read-back.js";

/** A value for each axis. Other keys are dropped: who walks over the axes must meet no third one. */
export const perAxis = <S extends z.core.$ZodLooseShape>(shape: S) => z.object(shape, told("a group of keys"));

export const axis = () => z.enum(["roll", "pitch"], told("roll or pitch"));
export const culprit = { script: text(), throttle: number(), rate: number(), condition: text() };
export const gains = () => part({ p: number(), d: number() });
/** Values of some measures; null: absent. */
export const seen = () => record(number().nullable(), "a group of measures");
