// The shape of the planned climb in map.json, for reading it back.
import { z } from "zod";
import { list, number, part, text, told, whole } from "../base/read-back.js";
import { axis, culprit, gains, perAxis, seen } from "./shapes.js";

const manoeuvre = () =>
  part({
    ...culprit,
    kind: z.enum(["stop", "wobble", "blip"], told("stop, wobble or blip")),
    title: text(),
    axis: axis(),
    from: number(),
    period: number(),
    command: list(number()),
  });

const tune = () =>
  part({
    p: number(),
    d: number(),
    own: gains().nullable(),
    trials: list(part({ manoeuvre: whole(), rate: list(number()), angle: list(number()).nullable() })),
    measures: seen(),
  });

export const ladderShape = () =>
  part({
    manoeuvres: list(manoeuvre()),
    steps: list(
      part({
        stage: z.enum(["p", "d", "check"], told("p, d or check")),
        condition: text(),
        axes: perAxis({ roll: tune().exactOptional(), pitch: tune().exactOptional() }),
      }),
    ),
  });
