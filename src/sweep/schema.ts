// What a sweep file may hold: format gainscape.sweep/1.
import type { z } from "zod";
import { choice, count, describeValue, field, name, quantity, words } from "../base/fields.js";
import { GATE_JUDGES, GATES, type Gate } from "../base/gates.js";
import { LONGEST_SETTING, MOST_SETTINGS } from "../base/key-path.js";
import { MEASURES, type Measure, type MeasureId } from "../base/measures.js";
import { type Reading, readQuantity } from "../base/quantity.js";
import { group, list } from "../base/shapes.js";
import { STRIP_MEASURES, type StripKind } from "../base/strip-measures.js";
import type { Kind } from "../base/units.js";
import { dGain, gridSchema, pGain } from "./grid-schema.js";
import {
  DRAWS,
  MOST_CHANGES,
  MOST_CONDITIONS,
  MOST_LEVELS,
  MOST_RATES,
  MOST_SCRIPTS,
  MOST_STRIP_SCRIPTS,
  STRIP_POINTS,
} from "./ranges.js";

const length = () => quantity("length", "-2 m", "2 m", "mm");
const position = () => list(length(), 3, 3, "lengths (x forward, y left, z up)");

/** A duty, or the one at which the craft hovers. */
const level = () =>
  field(
    (written): Reading<number | "hover"> => {
      if (written === "hover") return { value: "hover" };
      const reading = readQuantity(written, "share");
      if ("fault" in reading) return { fault: `${reading.fault} or hover` };
      if (reading.value >= 0.01 && reading.value <= 1) return reading;
      return { fault: `${String(written).trim()} is out of range, expected 1 % to 100 % or hover` };
    },
    { type: "string", description: "a duty, 1 % to 100 %, or hover" },
  );

const use = group({
  use: words(200),
  throttle: list(level(), 1, MOST_LEVELS, "throttle levels").optional(),
  rates: list(quantity("rate", "1 deg/s", "3000 deg/s"), 1, MOST_RATES, "rates").optional(),
});

const condition = group({
  name: name(),
  charge: quantity("share", "0 %", "100 %"),
  payload: group({ mass: quantity("mass", "0.1 g", "20 kg"), at: position() }).optional(),
  altitude: quantity("length", "-1000 m", "9000 m", "m").optional(),
  temperature: quantity("temperature", "-60 degC", "60 degC").optional(),
});

/** The measures a limit can be set on, and the key it has in the file. */
export const JUDGED: readonly Measure[] = MEASURES.filter((measure) => measure.argues !== null);
export const limitKey = (id: MeasureId): string => fileKey(id);
export const gateKey = ({ id }: Gate): string => fileKey(id);
const fileKey = (id: string): string => id.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

// Units of measures; null: a plain number.
const UNITS: Readonly<Record<string, readonly [Kind, unit: string, most: number] | null>> = {
  "%": ["share", "%", 1000],
  ms: ["duration", "ms", 10_000],
  deg: ["angle", "deg", 180],
  "deg rms": ["angle", "deg", 180],
  "half-cycles": null,
  "1": null,
};

/** A limit in the measure's own unit, or none. */
function limit({ unit }: Pick<Measure, "unit">) {
  const row = UNITS[unit];
  if (row === undefined) throw new RangeError(`no limit can be written in ${unit}: give UNITS a row`);
  const [kind, name, most] = row ?? [null, "", 1000];
  const scale = kind === null ? 1 : oneOf(kind, name);
  const read = (written: unknown): Reading<number | null> => {
    if (written === "none") return { value: null };
    const reading = kind === null ? plainNumber(written) : readQuantity(written, kind, name);
    if ("fault" in reading) return { fault: `${reading.fault} or none` };
    const value = Number((reading.value / scale).toPrecision(12));
    return value > 0 && value <= most
      ? { value }
      : { fault: `${describeValue(written)} is out of range, expected above 0 and up to ${most} ${name}`.trim() };
  };
  return field(read, { description: `a limit above 0, at most ${most} (unit ${unit}), or none` }).optional();
}

function oneOf(kind: Kind, unit: string): number {
  const reading = readQuantity(`1 ${unit}`, kind);
  return "value" in reading ? reading.value : Number.NaN;
}

const plainNumber = (written: unknown): Reading<number> =>
  typeof written === "number"
    ? { value: written }
    : { fault: `${describeValue(written)} is not a number, expected a number` };

const tune = () => group({ p: pGain(), d: dGain() });

/** What a gate allows in its own unit, or null where it is off. */
function gate({ unit, measures, allowed }: Gate) {
  const counted = unit !== "%";
  const read = (written: unknown): Reading<number | null> => {
    if (written === "off") return { value: null };
    if (counted)
      return written === "on" ? { value: allowed } : { fault: `expected on or off, found ${describeValue(written)}` };
    const reading = readQuantity(written, "share");
    if ("fault" in reading) return { fault: `${reading.fault} or off` };
    const value = Number((100 * reading.value).toPrecision(12));
    return value >= 0 && value <= 100
      ? { value }
      : { fault: `${describeValue(written)} is out of range, expected 0 % to 100 %` };
  };
  return field(read, { type: "string", description: `${measures}; ${counted ? "on" : "a share"} or off` }).optional();
}

type GateSchemas = Readonly<Record<string, ReturnType<typeof gate>>>;
const strip = (kind: StripKind) =>
  group({
    scripts: list(use, 1, MOST_STRIP_SCRIPTS, "scripts"),
    points: count(...STRIP_POINTS).optional(),
    limits: group(
      Object.fromEntries(STRIP_MEASURES[kind].map((measure) => [measure.key, limit(measure)])) as LimitSchemas,
    ).optional(),
  });
type LimitSchemas = Readonly<Record<string, ReturnType<typeof limit>>>;

const gates = group({
  ...(Object.fromEntries(GATES.map((one) => [gateKey(one), gate(one)])) as GateSchemas),
  judge: choice(GATE_JUDGES).optional(),
  skipped: choice(["pass", "fail"]).optional(),
});

const baseline = group({
  model: words(400).optional(),
  candidates: list(words(400), 1, 32, "model files"),
});

/** What is taken out of the model, or put into it, in the terms of --set. */
const change = group({
  without: words(60).optional(),
  with: words(60).optional(),
  set: list(words(LONGEST_SETTING), 1, MOST_SETTINGS, "keys with their values"),
});

export const SWEEP_FORMAT = "gainscape.sweep/1";

export const sweepSchema = group({
  format: choice([SWEEP_FORMAT]),
  name: name(),
  title: words(120),
  notes: words(4000, "lines").optional(),
  model: words(400).optional(),
  seed: count(0, 4294967295).optional(),
  trials: choice(["needed", "all"]).optional(),
  grid: gridSchema(),
  scripts: list(use, 1, MOST_SCRIPTS, "scripts"),
  conditions: list(condition, 1, MOST_CONDITIONS, "conditions"),
  limits: group(Object.fromEntries(JUDGED.map((measure) => [limitKey(measure.id), limit(measure)]))).optional(),
  margins: group({
    gain: quantity("level", "0 dB", "40 dB").optional(),
    phase: quantity("angle", "0 deg", "89 deg").optional(),
  }).optional(),
  boundary_tolerance: quantity("share", "0.01 %", "10 %").optional(),
  uncertainty: group({
    draws: count(...DRAWS).optional(),
    confidence: quantity("share", "50 %", "99.9 %").optional(),
    loop_gain: quantity("share", "0 %", "50 %").optional(),
  }).optional(),
  strips: group({ yaw: strip("yaw").optional(), i: strip("i").optional() }).optional(),
  pinned: group({ roll: tune(), pitch: tune() }).optional(),
  gates: gates.optional(),
  baseline: baseline.optional(),
  changes: list(change, 1, MOST_CHANGES, "changes").optional(),
});

export type SweepFile = z.output<typeof sweepSchema>;

/** What a file's gates allow, by key; undefined: left out. */
export const allowedIn = ({ gates: given = {} }: SweepFile) =>
  given as Readonly<Record<string, number | null | undefined>>;
