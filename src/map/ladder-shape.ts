// The shape of the planned climb in map.json, for reading it back.
import { z } from "zod";
import { axis, culprit, gains, list, number, part, perAxis, seen, text, told, whole } from "./shapes.js";

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
