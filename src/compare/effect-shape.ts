// The shape of effects.json, for drawing its page again. Unknown keys are accepted.
import { z } from "zod";
import { MEASURE_IDS } from "../base/measures.js";
import { bool, expecting, list, number, object, positive, text } from "../base/read-back.js";
import { MOST_CHANGES, MOST_CONDITIONS } from "../sweep/ranges.js";
import { EFFECTS_FORMAT } from "./effect-format.js";

const both = <S extends z.ZodType>(value: S) => object({ asItIs: value, changed: value });
const numberOrNull = () => number().nullable();
const difference = { percent: numberOrNull(), seen: bool() };

const tune = () =>
  object({
    p: number(),
    d: number(),
    safe: both(bool()),
    gainUp: both(numberOrNull()),
    phase: both(number()),
    measures: list(
      object({
        id: z.enum(MEASURE_IDS, expecting("a measure")),
        asItIs: number(),
        changed: number(),
        seen: bool(),
      }),
      MEASURE_IDS.length,
    ),
  });

const start = () => object({ p: number(), d: number(), room: numberOrNull() });

const axis = () =>
  object({
    ground: object({ ...difference, points: both(number()) }),
    boundary: object(difference),
    conditions: list(object({ ...difference, condition: text() }), MOST_CONDITIONS),
    tune: tune().nullable(),
    start: both(start().nullable()),
  });

const found = () =>
  object({
    delayMs: object({ p: both(number()), d: both(number()) }),
    axes: object({ roll: axis(), pitch: axis() }),
    gain: number(),
    planDigest: text(),
    map: object({}), // a baseline, read as one
  });

export const effectsShape = object({
  format: z.literal(EFFECTS_FORMAT, expecting(EFFECTS_FORMAT)),
  product: object({ name: text(), version: text() }),
  airframe: object({ name: text(), version: text(), title: text(), digest: text() }),
  sweep: object({ name: text(), title: text() }),
  command: text(),
  planDigest: text(),
  delayFrequency: positive(),
  effects: list(
    object({
      kind: z.enum(["without", "with"], expecting("without or with")),
      name: text(),
      set: list(text()),
      found: found().nullable(),
    }),
    MOST_CHANGES,
  ),
});
