// The shape of a resolved model in map.json, for reading it back: SI. Values that decide a trial's cost have the same
// ranges as in a model file.
import { z } from "zod";
import {
  between,
  counted,
  expecting,
  int,
  list,
  listOf,
  number,
  object,
  positive,
  text,
  within,
} from "../base/read-back.js";
import type { Correlation } from "./airframe.js";
import { keysOf } from "./correlation-keys.js";
import {
  CUTOFF,
  DUTY_ROWS,
  GAIN_FACTOR,
  HARMONIC,
  LATENCY,
  MOST_PAIRS,
  MOST_TOGETHER,
  NOTCH_CENTRE,
  NOTCH_WIDTH,
  NOTCHES,
  PACK_CUTOFF,
  RATE,
  ROTORS,
  SCHEDULE_ROWS,
  STAGES,
  SUBSTEPS,
  TRACKING_WIDTH,
  VIBRATIONS,
} from "./ranges.js";

const vector = () => z.tuple([number(), number(), number()], expecting("three numbers"));
const stages = () =>
  listOf(object({ order: counted(1, 2), cutoff: between("frequency", ...CUTOFF) }), STAGES[0], STAGES[1]);
const notches = () =>
  listOf(
    object({ centre: between("frequency", ...NOTCH_CENTRE), width: between("frequency", ...NOTCH_WIDTH) }),
    ...NOTCHES,
  ).optional();
const share = () => within(0, 1);
const schedules = () =>
  listOf(
    object({
      order: counted(1, 2),
      corners: listOf(object({ throttle: share(), cutoff: between("frequency", ...CUTOFF) }), ...SCHEDULE_ROWS),
    }),
    ...STAGES,
  ).optional();
const tracking = () =>
  listOf(
    object({
      harmonic: within(...HARMONIC),
      width: between("share", ...TRACKING_WIDTH),
      lowest: between("frequency", ...NOTCH_CENTRE),
    }),
    ...NOTCHES,
  ).optional();
const swept = () => object({ p: number().nullable(), i: number(), d: number().nullable() });
/** Feed-forward of an axis. */
const ahead = () => object({ rate: number(), slope: number() });

export const spin = () => z.union([z.literal(1), z.literal(-1)], expecting("1 or -1"));

export const storedInertia = () =>
  object({ xx: positive(), yy: positive(), zz: positive(), xy: number(), xz: number(), yz: number() });

const fewEnough = [
  (pairs: readonly Pick<Correlation, "one" | "other">[]) => keysOf(pairs).size <= MOST_TOGETHER,
  { error: `more than ${MOST_TOGETHER} numbers, expected fewer` },
] as const;

/** Of a map of format gainscape.map/2. A key that a trial reads raises the model's own number, modelFormat (map/simulable.ts). */
export const storedModel = () =>
  object({
    name: text(),
    version: text(),
    title: text(),
    mass: positive(),
    centreOfMass: vector(),
    inertia: storedInertia(),
    rotors: listOf(object({ at: vector(), spin: spin() }), ...ROTORS),
    propeller: object({
      diameter: positive(),
      blades: int(),
      ct: positive(),
      cp: positive(),
      cpSlope: number(),
      zeroThrustAdvance: positive(),
      inertia: positive(),
    }),
    motor: object({ constant: positive(), resistance: positive(), noLoadCurrent: number(), bellInertia: positive() }),
    pack: object({
      cells: counted(1, 14),
      capacity: positive(),
      resistance: positive(),
      openCircuit: listOf(z.tuple([share(), positive()], expecting("a charge and a voltage")), 2, 101),
    }),
    sensing: object({
      noiseDensity: number(),
      lowPass: stages(),
      notch: notches(),
      lowPassSchedule: schedules(),
      trackingNotch: tracking(),
      vibration: listOf(object({ harmonic: within(...HARMONIC), atHover: number() }), ...VIBRATIONS),
    }),
    controller: object({
      rate: between("frequency", ...RATE),
      latency: between("duration", ...LATENCY),
      idle: share(),
      substeps: counted(...SUBSTEPS),
      derivativeFilter: stages(),
      derivativeNotch: notches(),
      derivativeFilterSchedule: schedules(),
      derivativeTrackingNotch: tracking(),
      integralLimit: share(),
      roll: swept(),
      pitch: swept(),
      yaw: object({ p: number(), i: number(), d: number() }),
      scale: object({
        p: positive(),
        i: positive().optional(),
        d: positive(),
        yaw: object({ p: positive(), i: positive().optional() }).optional(),
      }).nullable(),
      commandLowPass: stages().optional(),
      feedForward: object({ roll: ahead(), pitch: ahead(), yaw: ahead() }).optional(),
      packCompensation: object({ nominal: positive(), cutoff: between("frequency", ...PACK_CUTOFF) }).optional(),
      dutyTable: listOf(object({ command: share(), duty: share() }), ...DUTY_ROWS).optional(),
      gainSchedule: listOf(
        object({ throttle: share(), p: within(...GAIN_FACTOR), i: within(...GAIN_FACTOR), d: within(...GAIN_FACTOR) }),
        ...SCHEDULE_ROWS,
      ).optional(),
    }),
    wash: object({ rms: share(), loss: share(), revolutions: positive(), correlation: share() }),
    defaulted: list(text()),
    spreads: list(
      object({
        key: text(),
        nominal: number(),
        law: z.enum(["normal", "log-normal", "uniform"]),
        size: positive(),
        least: number(),
        most: number(),
      }),
    ).optional(),
    correlations: list(object({ one: text(), other: text(), correlation: within(-1, 1) }), MOST_PAIRS)
      .refine(...fewEnough)
      .optional(),
    changed: list(text()).optional(),
  });
