// The shape of what map.json says of how sure it is, for reading it back.
import { z } from "zod";
import { expecting, int, list, number, object, positive, text, within } from "../base/read-back.js";

const orNull = () => number().nullable();
const share = () => within(0, 1);

export const axisConfidenceShape = () =>
  object({
    safeDraws: list(list(int())),
    safeShare: share(),
    band: list(object({ d: number(), low: orNull(), middle: orNull(), high: orNull() })),
    start: object({
      safe: int(),
      of: int(),
      interval: z.tuple([share(), share()], expecting("two shares")),
    }).nullable(),
    worth: list(object({ key: text(), gain: number(), error: number() })),
    leftOut: object({ points: int(), trials: int() }),
  });

const ofAxis = () => object({ boundary: list(positive().nullable()), startFailsBy: text().nullable() });

export const uncertaintyShape = () =>
  object({
    confidence: share(),
    pointDraws: int(),
    spreads: list(
      object({
        key: text(),
        nominal: number(),
        law: z.enum(["normal", "log-normal", "uniform"], expecting("a law of spreads")),
        size: positive(),
      }),
    ),
    redrawn: int(),
    draws: list(object({ values: list(number()), roll: ofAxis(), pitch: ofAxis() })),
    numbers: object({ places: list(list(text())), values: list(list(number())) }).exactOptional(),
  });
