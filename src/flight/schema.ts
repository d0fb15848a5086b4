// What a flight file may hold: format gainscape.flight/1. What contradicts itself is judged in faults.ts.
import type { z } from "zod";
import { choice, count, quantity, words } from "../base/fields.js";
import { group, list } from "../base/shapes.js";
import { gain, plain, seen, sign } from "./fields.js";
import { MANOEUVRES } from "./manoeuvres.js";

export const FLIGHT_FORMAT = "gainscape.flight/1";

const p = () => gain("pGain", "0 %/(100 deg/s)", "1000 %/(100 deg/s)");
const i = () => gain("iGain", "0 %/(100 deg)", "5000 %/(100 deg)");
const d = () => gain("dGain", "0 %/(1000 deg/s^2)", "500 %/(1000 deg/s^2)");
const gains = () => group({ p: p(), i: i().optional(), d: d() });

const MOST_ROTORS = 8;
const LONGEST = "86400 s";

const named = () => ({ column: words(80) });
/** A column of a quantity: its unit, how many of its numbers make one of the unit, and its sign. */
const inUnit = <const U extends string>(units: readonly U[]) => ({
  ...named(),
  unit: choice(units),
  divide_by: plain(true).optional(),
});
const rateUnits = ["deg/s", "rad/s"] as const;
const rate = () =>
  group({
    ...inUnit(rateUnits),
    sign: sign().optional(),
    limit: quantity("rate", "10 deg/s", "10000 deg/s").optional(),
  });
const command = () => group({ ...inUnit(rateUnits), sign: sign().optional() });
const perAxis = <S extends z.ZodType>(one: () => S) =>
  group({ roll: one().optional(), pitch: one().optional(), yaw: one().optional() });
/** A column of shares: what it says at rest and at full. */
const share = () => ({ ...named(), zero: plain().optional(), full: plain(true) });
const rotor = () => count(1, MOST_ROTORS);
const instant = () => quantity("duration", "0 s", LONGEST, "s");

const log = group({
  file: words(400),
  delimiter: choice(["comma", "semicolon", "tab"]).optional(),
  time: group({ ...named(), unit: choice(["s", "ms", "us"]), divide_by: plain(true).optional() }),
  rate: perAxis(rate),
  command: perAxis(command).optional(),
  motor: list(group({ ...share(), rotor: rotor() }), 1, MOST_ROTORS, "columns of motors").optional(),
  throttle: group(share()).optional(),
  voltage: group(inUnit(["V", "mV"])).optional(),
  rotor_speed: list(
    group({ ...inUnit(["rpm", "rad/s", "Hz"]), pole_pairs: count(1, 60).optional(), rotor: rotor() }),
    1,
    MOST_ROTORS,
    "columns of rotor speeds",
  ).optional(),
  use: list(group({ from: instant(), to: instant() }), 1, 100, "stretches").optional(),
});

/** One of: what the throttle or the motors said in hover; what an axis did at some gains. */
const sighting = group({
  hover_throttle: seen("share", "1 %", "100 %", "31 % ± 2 %").optional(),
  motor_tone: seen("frequency", "10 Hz", "20 kHz", "410 Hz ± 10 Hz").optional(),
  axis: choice(["roll", "pitch"]).optional(),
  gains: gains().optional(),
  manoeuvre: choice(MANOEUVRES).optional(),
  died_out: choice(["yes", "no"]).optional(),
  swings: count(0, 200).optional(),
  frequency: seen("frequency", "0.2 Hz", "200 Hz", "18 Hz ± 3 Hz").optional(),
  picture: quantity("frequency", "0.2 Hz", "200 Hz").optional(),
  pace: choice(["slower", "same", "faster"]).optional(),
  motors: choice(["cool", "warm", "hot"]).optional(),
});

export const flightSchema = group({
  format: choice([FLIGHT_FORMAT]),
  title: words(120),
  date: words(40).optional(),
  notes: words(4000, "lines").optional(),
  model: words(400),
  pack: group({ cells: count(1, 14).optional(), charge: quantity("share", "0 %", "100 %").optional() }).optional(),
  gains: group({
    roll: gains().optional(),
    pitch: gains().optional(),
    yaw: group({ p: p(), i: i().optional(), d: d().optional() }).optional(),
  }).optional(),
  log: log.optional(),
  sightings: list(sighting, 1, 100, "sightings").optional(),
});

export type FlightFile = z.output<typeof flightSchema>;
export type LogFile = z.output<typeof log>;
export type SightingFile = z.output<typeof sighting>;
