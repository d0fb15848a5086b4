// What a script file may hold: format gainscape.script/1.

import { z } from "zod";
import { choice, name, quantity, words } from "../base/fields.js";
import { KIND_IDS } from "../base/script-kinds.js";
import { group, list } from "../base/shapes.js";
import { LONGEST, MOST_GUSTS, MOST_INSTANTS, SHORTEST } from "./ranges.js";
import { rateValue, speedValue, throttleValue } from "./values.js";

export const SHORTEST_TAIL = 0.8; // s, least length of the tail

const instant = () => quantity("duration", "0 s", `${LONGEST} s`, "ms");
const span = () => group({ from: instant(), to: instant() });

const timeline = <S extends z.ZodType>(value: S) =>
  list(group({ at: instant(), value }), 1, MOST_INSTANTS, "instants").optional();

const windSpeed = () => quantity("speed", "0.1 m/s", "60 m/s");
const reach = () => quantity("length", "0.1 m", "1000 m", "m");

const gust = z.discriminatedUnion(
  "kind",
  [
    group({
      kind: z.literal("pulse"),
      at: instant(),
      peak: quantity("speed", "-30 m/s", "30 m/s"),
      length: reach(),
      speed: windSpeed(),
    }),
    group({
      kind: z.literal("turbulence"),
      from: instant(),
      to: instant(),
      rms: quantity("speed", "0 m/s", "20 m/s"),
      scale: reach(),
      speed: windSpeed(),
    }),
  ],
  {
    error: (issue) =>
      issue.code === "invalid_union" ? "expected pulse or turbulence" : "expected a gust: kind and what it needs",
  },
);

export const SCRIPT_FORMAT = "gainscape.script/1";

export const scriptSchema = group({
  format: choice([SCRIPT_FORMAT]),
  name: name(),
  title: words(120),
  notes: words(4000, "lines").optional(),
  kind: choice(KIND_IDS),
  axes: list(choice(["roll", "pitch", "yaw"]), 1, 3, "axes"),
  duration: quantity("duration", `${SHORTEST} s`, `${LONGEST} s`, "s"),
  window: span(),
  tail: span(),
  noise: choice(["on", "off"]),
  throttle: timeline(throttleValue()),
  command: timeline(rateValue()),
  yaw: timeline(rateValue()),
  climb: timeline(speedValue()),
  descent: timeline(speedValue()),
  gusts: list(gust, 0, MOST_GUSTS, "gusts").optional(),
});

export type ScriptFile = z.output<typeof scriptSchema>;
