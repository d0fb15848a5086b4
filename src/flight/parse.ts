// From a checked flight file to the Flight: SI, columns with their scale.
import { check } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { siOf } from "../base/fields.js";
import { deepFreeze } from "../base/freeze.js";
import { InputError, type Path } from "../base/problem.js";
import { flightFaults } from "./faults.js";
import type { WrittenGain } from "./fields.js";
import type { Column, Delimiter, Flight, GainsAsSet, LogDeclaration, RotorColumn, Sighting } from "./flight.js";
import type { LogAxis } from "./log.js";
import { type FlightFile, flightSchema, type LogFile, type SightingFile } from "./schema.js";

/** The flight of a document; InputError with every problem found. */
export function parseFlight(document: Document): Flight {
  const file = check(flightSchema, document);
  const faults = flightFaults(file);
  if (faults.length > 0) throw new InputError(faults.map(({ path, message }) => problemAt(document, path, message)));
  return deepFreeze(flightOf(file));
}

function flightOf(file: FlightFile): Flight {
  const { roll, pitch, yaw } = file.gains ?? {};
  return {
    title: file.title,
    date: file.date ?? null,
    model: file.model,
    pack: { cells: file.pack?.cells ?? null, charge: file.pack?.charge ?? null },
    gains: {
      ...(roll === undefined ? {} : { roll: gainsOf(roll) }),
      ...(pitch === undefined ? {} : { pitch: gainsOf(pitch) }),
      ...(yaw === undefined ? {} : { yaw: gainsOf(yaw) }),
    },
    log: file.log === undefined ? null : declarationOf(file.log),
    sightings: (file.sightings ?? []).map((one, at) => sightingOf(one, ["sightings", at])),
  };
}

interface Gains {
  readonly p: WrittenGain;
  readonly i?: WrittenGain | undefined;
  readonly d?: WrittenGain | undefined;
}

const gainsOf = ({ p, i, d }: Gains): GainsAsSet => ({
  own: p.own,
  p: p.value,
  i: i?.value ?? null,
  d: d?.value ?? 0,
});

function sightingOf(one: SightingFile, path: Path): Sighting {
  if (one.hover_throttle !== undefined) return { kind: "hover-throttle", ...one.hover_throttle, path };
  if (one.motor_tone !== undefined) return { kind: "motor-tone", ...one.motor_tone, path };
  const { axis, gains, pace, picture } = one;
  if (axis === undefined || gains === undefined) throw new RangeError("flightFaults lets no such sighting pass");
  return {
    kind: "oscillation",
    axis,
    gains: gainsOf(gains),
    manoeuvre: one.manoeuvre ?? null,
    diedOut: one.died_out === undefined ? null : one.died_out === "yes",
    swings: one.swings ?? null,
    frequency: one.frequency ?? null,
    pace: pace === undefined || picture === undefined ? null : { than: picture, seen: pace },
    motors: one.motors ?? null,
    path,
  };
}

const DELIMITERS: Readonly<Record<string, Delimiter>> = { comma: ",", semicolon: ";", tab: "\t" };

/** SI of one of each unit a column may have. */
const ONE: Readonly<Record<string, number>> = {
  s: 1,
  ms: siOf("1 ms", "duration"),
  us: siOf("1 us", "duration"),
  "deg/s": siOf("1 deg/s", "rate"),
  "rad/s": 1,
  V: 1,
  mV: siOf("1 mV", "voltage"),
  rpm: (2 * Math.PI) / 60, // rad/s
  Hz: 2 * Math.PI, // rad/s
};

function declarationOf(log: LogFile): LogDeclaration {
  const axis = (key: "rate" | "command", one: LogAxis): Column | null => columnOf(log[key]?.[one], ["log", key, one]);
  const axes = (key: "rate" | "command") => ({
    roll: axis(key, "roll"),
    pitch: axis(key, "pitch"),
    yaw: axis(key, "yaw"),
  });
  return {
    file: log.file,
    delimiter: DELIMITERS[log.delimiter ?? ""] ?? null,
    time: written(log.time, ["log", "time"]),
    rate: axes("rate"),
    command: axes("command"),
    motor: rotorColumns(log.motor, ["log", "motor"]),
    throttle: columnOf(log.throttle, ["log", "throttle"]),
    voltage: columnOf(log.voltage, ["log", "voltage"]),
    rotorSpeed: rotorColumns(log.rotor_speed, ["log", "rotor_speed"]),
    use: log.use ?? [],
  };
}

interface WrittenColumn {
  readonly column: string;
  readonly unit?: string | undefined;
  readonly sign?: number | undefined;
  readonly divide_by?: number | undefined;
  readonly limit?: number | undefined;
  readonly pole_pairs?: number | undefined;
  readonly zero?: number | undefined;
  readonly full?: number | undefined;
}

const columnOf = (one: WrittenColumn | undefined, path: Path): Column | null =>
  one === undefined ? null : written(one, path);

function written(one: WrittenColumn, path: Path): Column {
  const { column: name, unit = null, sign = 1, divide_by: by = 1, pole_pairs: pairs = 1, zero = 0, full } = one;
  const scale = full === undefined ? (sign * (ONE[unit ?? ""] ?? Number.NaN)) / by / pairs : 1 / (full - zero);
  return { name, zero, scale, unit, limit: one.limit ?? null, path };
}

const rotorColumns = (
  all: readonly (WrittenColumn & { readonly rotor: number })[] | undefined,
  path: Path,
): RotorColumn[] => (all ?? []).map((one, at) => ({ ...written(one, [...path, at]), rotor: one.rotor - 1 }));
