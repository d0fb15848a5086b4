// The shape of a resolved sweep in map.json, for reading it back: SI, within the size limits of a sweep file.
import { z } from "zod";
import { GATES, type GateId } from "../base/gates.js";
import { MEASURE_IDS } from "../base/measures.js";
import { bool, counted, expecting, list, listOf, number, object, positive, text, within } from "../base/read-back.js";
import { KIND_IDS } from "../base/script-kinds.js";
import { MOST_GRID_LINES } from "../base/sizes.js";
import {
  DRAWS,
  LONGEST,
  MOST_CONDITIONS,
  MOST_GUSTS,
  MOST_INSTANTS,
  MOST_LEVELS,
  MOST_RATES,
  MOST_SCRIPTS,
  SHORTEST,
} from "./ranges.js";

const instant = () => within(0, LONGEST);
const span = () => object({ from: instant(), to: instant() });
const timeline = <V extends z.ZodType>(value: V) =>
  listOf(z.tuple([instant(), value], expecting("a time and a value")), 0, MOST_INSTANTS);
const one = <Kind extends string, S extends z.core.$ZodLooseShape>(kind: Kind, shape: S) =>
  object({ kind: z.literal(kind), ...shape });
const either = <S extends readonly [z.core.$ZodTypeDiscriminable, ...z.core.$ZodTypeDiscriminable[]]>(...shapes: S) =>
  z.discriminatedUnion("kind", shapes, expecting("one of the values a script may hold"));

const throttleValue = () => either(one("duty", { duty: number() }), one("level", { plus: number() }), one("idle", {}));
const rateValue = () => either(one("rate", { rate: number() }), one("share", { share: number() }));
const speedValue = () => either(one("speed", { speed: number() }), one("ratio", { ratio: number() }));
const gust = () =>
  either(
    one("pulse", { at: instant(), peak: number(), length: positive(), speed: positive() }),
    one("turbulence", { from: instant(), to: instant(), rms: number(), scale: positive(), speed: positive() }),
  );

export const axisName = () => z.enum(["roll", "pitch"], expecting("roll or pitch"));

const script = () =>
  object({
    name: text(),
    title: text(),
    kind: z.enum(KIND_IDS, expecting("a kind of script")),
    axes: listOf(z.enum(["roll", "pitch", "yaw"], expecting("roll, pitch or yaw")), 1, 3),
    duration: within(SHORTEST, LONGEST),
    window: span(),
    tail: span(),
    noise: bool(),
    throttle: timeline(throttleValue()),
    command: timeline(rateValue()),
    yaw: timeline(rateValue()),
    climb: timeline(speedValue()),
    descent: timeline(speedValue()),
    gusts: listOf(gust(), 0, MOST_GUSTS),
  });

const level = () => z.union([z.literal("hover"), within(0, 1)], expecting("a duty or hover"));
const vector = () => z.tuple([number(), number(), number()], expecting("three numbers"));

export const storedCondition = () =>
  object({
    name: text(),
    charge: within(0, 1),
    payload: object({ mass: number(), at: vector() }).nullable(),
    altitude: number(),
    temperature: number().nullable(),
  });

const each = <K extends string, S extends z.ZodType>(keys: readonly K[], shape: () => S) =>
  object(Object.fromEntries(keys.map((key) => [key, shape()])) as Record<K, S>);
const tune = () => object({ p: number(), d: number() });
const gainGrid = () => object({ p: list(number(), MOST_GRID_LINES), d: list(number(), MOST_GRID_LINES) });
const lineCounts = () => object({ p: counted(2, MOST_GRID_LINES), d: counted(2, MOST_GRID_LINES) });
const gates = () =>
  each(
    GATES.map(({ id }): GateId => id),
    () => number().nullable().exactOptional(),
  );

/** Of a map of format gainscape.map/2. Gates and baseline judge a map and need not be there. */
export const storedSweep = () =>
  object({
    name: text(),
    title: text(),
    seed: counted(0, 4294967295),
    grid: object({ roll: gainGrid(), pitch: gainGrid() }),
    scripts: listOf(
      object({
        script: script(),
        throttle: listOf(level(), 1, MOST_LEVELS),
        rates: listOf(number(), 1, MOST_RATES),
      }),
      1,
      MOST_SCRIPTS,
    ),
    everyTrial: z.literal(true).exactOptional(),
    conditions: listOf(storedCondition(), 1, MOST_CONDITIONS),
    limits: each(MEASURE_IDS, () => number().nullable().exactOptional()),
    margins: object({ gain: number(), phase: number() }),
    boundaryTolerance: positive(),
    uncertainty: object({ draws: counted(...DRAWS), confidence: within(0, 1), loopGain: within(0, 1) }).exactOptional(),
    pinned: object({ roll: tune(), pitch: tune() }).nullable(),
    gates: gates().exactOptional(),
    gateJudge: z.literal("lower").exactOptional(),
    skippedGates: z.literal("fail").exactOptional(),
    autoGrid: object({ roll: lineCounts().exactOptional(), pitch: lineCounts().exactOptional() }).exactOptional(),
  });
