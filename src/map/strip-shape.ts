// The shape of the strips in map.json, for reading them back.
import { list, number, object, record, text } from "../base/read-back.js";
import { axis, limitingCase, perAxis } from "./shapes.js";

const MOST_GAINS = 64;
const perGain = () => list(number().nullable(), MOST_GAINS);
const stripLimit = () => object({ limit: text(), decidedBy: object(limitingCase).nullable() });

const strip = {
  gains: list(number(), MOST_GAINS),
  measures: record(perGain(), "a group of measures"),
  limits: record(number().nullable(), "a group of limits"),
  margins: object({ gainUp: perGain(), gainDown: perGain(), phase: perGain() }),
  fails: list(stripLimit().nullable(), MOST_GAINS),
  range: object({
    from: number(),
    to: number(),
    below: stripLimit().nullable(),
    above: stripLimit().nullable(),
  }).nullable(),
  declared: number(),
  choice: number().nullable(),
  titles: record(text(), "a group of titles"),
  oneUnit: number().nullable(),
};

export const stripsShape = () =>
  object({
    yaw: object({ ...strip, i: number(), heldAtStart: list(axis(), 2) }).exactOptional(),
    i: perAxis({ roll: object(strip).exactOptional(), pitch: object(strip).exactOptional() }).exactOptional(),
  });
