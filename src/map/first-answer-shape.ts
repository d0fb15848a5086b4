// The shape of theory's first answer, for reading it back.
import { bool, number, object, text } from "../base/read-back.js";

const end = () => object({ p: number(), throttle: number(), condition: text() });

const start = () =>
  object({
    p: number(),
    d: number(),
    own: object({ p: number(), d: number() }).nullable(),
    margins: object({
      gainUp: number().nullable(),
      gainDown: number().nullable(),
      phase: number().nullable(),
    }),
    enough: bool(),
    boundary: object({ lowest: end().nullable(), highest: end().nullable() }),
  });

export const firstAnswerShape = {
  airframe: object({ name: text(), version: text() }),
  sweep: object({ name: text() }),
  units: object({ p: text(), d: text(), i: text() }),
  roll: start().nullable(),
  pitch: start().nullable(),
};
