// The shape of the planned climb in map.json, for reading it back.
import { z } from "zod";
import { expecting, int, list, number, object, text, within } from "../base/read-back.js";
import { LADDER_KINDS } from "../base/script-kinds.js";
import { axis, gains, limitingCase, measuredValues, perAxis } from "./shapes.js";

const manoeuvre = () =>
  object({
    ...limitingCase,
    kind: z.enum(LADDER_KINDS, expecting(`one of ${LADDER_KINDS.join(", ")}`)),
    title: text(),
    axis: axis(),
    share: within(0, 1).exactOptional(),
    descent: number().exactOptional(),
    from: number(),
    period: number(),
    command: list(number()),
  });

const tune = () =>
  object({
    p: number(),
    d: number(),
    own: gains().nullable(),
    trials: list(object({ manoeuvre: int(), rate: list(number()), angle: list(number()).nullable() })),
    measures: measuredValues(),
  });

export const ladderShape = () =>
  object({
    manoeuvres: list(manoeuvre()),
    steps: list(
      object({
        stage: z.enum(["p", "d", "check"], expecting("p, d or check")),
        condition: text(),
        axes: perAxis({ roll: tune().exactOptional(), pitch: tune().exactOptional() }),
      }),
    ),
  });
