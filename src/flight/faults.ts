// What contradicts itself in a flight file, though each value could be right.
import type { Path } from "../base/problem.js";
import type { WrittenGain } from "./fields.js";
import type { FlightFile, LogFile, SightingFile } from "./schema.js";

export interface FlightFault {
  readonly path: Path;
  readonly message: string;
}

export function flightFaults(file: FlightFile): FlightFault[] {
  const { gains = {}, log, sightings = [] } = file;
  const ofGains = Object.entries(gains).flatMap(([axis, one]) => mixed(one, ["gains", axis]));
  const nothing = log === undefined && file.sightings === undefined;
  return [
    ...(nothing ? [{ path: ["log"], message: "missing; a flight file holds a log, sightings, or both" }] : []),
    ...ofGains,
    ...(log === undefined ? [] : [...columnsTwice(log), ...rotorsTwice(log), ...ofUse(log), ...ofScales(log)]),
    ...sightings.flatMap((one, at) => ofSighting(one, ["sightings", at])),
  ];
}

type Gains = Readonly<Record<string, WrittenGain | undefined>>;

/** Own numbers and gains with units in one set. */
function mixed(gains: Gains | undefined, path: Path): FlightFault[] {
  const all = Object.entries(gains ?? {}).flatMap(([key, one]) => (one === undefined ? [] : [[key, one.own] as const]));
  const other = all.find(([, own]) => own !== all[0]?.[1]);
  if (other === undefined) return [];
  const message = "the gains of one set are all the controller's own numbers, or all with units";
  return [{ path: [...path, other[0]], message }];
}

/** Each column with the path of its name. */
function columns(log: LogFile): (readonly [name: string, path: Path])[] {
  const single = (["time", "throttle", "voltage"] as const).flatMap((key) => named(log[key], ["log", key]));
  const axes = (["rate", "command"] as const).flatMap((key) =>
    Object.entries(log[key] ?? {}).flatMap(([axis, one]) => named(one, ["log", key, axis])),
  );
  const rotors = (["motor", "rotor_speed"] as const).flatMap((key) =>
    (log[key] ?? []).flatMap((one, at) => named(one, ["log", key, at])),
  );
  return [...single, ...axes, ...rotors];
}

const named = (one: { readonly column: string } | undefined, path: Path): (readonly [string, Path])[] =>
  one === undefined ? [] : [[one.column, [...path, "column"]]];

function columnsTwice(log: LogFile): FlightFault[] {
  const all = columns(log);
  return all.flatMap(([name, path], at) => {
    const before = all.slice(0, at).find(([other]) => other === name);
    const message = `"${name}" has another role already, expected one column for each`;
    return before === undefined ? [] : [{ path, message }];
  });
}

function rotorsTwice(log: LogFile): FlightFault[] {
  return (["motor", "rotor_speed"] as const).flatMap((key) => {
    const rotors = (log[key] ?? []).map(({ rotor }) => rotor);
    return rotors.flatMap((rotor, at) => {
      const message = `rotor ${rotor} has a column already`;
      return rotors.indexOf(rotor) === at ? [] : [{ path: ["log", key, at, "rotor"], message }];
    });
  });
}

function ofUse({ use = [] }: LogFile): FlightFault[] {
  return use.flatMap(({ from, to }, at) => {
    const path = ["log", "use", at, "to"];
    if (to <= from) return [{ path, message: "ends before it begins, expected `to` after `from`" }];
    const before = use[at - 1];
    return before !== undefined && from < before.to
      ? [
          {
            path: ["log", "use", at, "from"],
            message: "begins before the stretch above it ends, expected them in order",
          },
        ]
      : [];
  });
}

/** Shares whose full scale is their zero. */
function ofScales({ motor = [], throttle }: LogFile): FlightFault[] {
  const all = [
    ...motor.map((one, at) => [one, ["log", "motor", at]] as const),
    [throttle, ["log", "throttle"]] as const,
  ];
  return all.flatMap(([one, path]) =>
    one !== undefined && one.full === (one.zero ?? 0)
      ? [{ path: [...path, "full"], message: "full is the same number as zero, expected another" }]
      : [],
  );
}

const OF_AN_AXIS = ["gains", "manoeuvre", "died_out", "swings", "frequency", "picture", "pace", "motors"] as const;
const ANSWERS = ["died_out", "swings", "frequency", "pace", "motors"] as const;

function ofSighting(one: SightingFile, path: Path): FlightFault[] {
  const alone = (["hover_throttle", "motor_tone"] as const).filter((key) => one[key] !== undefined);
  const about = OF_AN_AXIS.filter((key) => one[key] !== undefined);
  const kinds = alone.length + (one.axis === undefined ? 0 : 1);
  if (kinds !== 1 || (one.axis === undefined && about.length > 0)) {
    const message =
      kinds === 0 && about.length > 0
        ? "missing; which axis was it? (roll or pitch)"
        : "expected one sighting: hover_throttle, motor_tone, or axis with gains and what was seen";
    return [{ path: kinds === 0 && about.length > 0 ? [...path, "axis"] : path, message }];
  }
  return one.axis === undefined ? [] : [...mixed(one.gains, [...path, "gains"]), ...ofOscillation(one, path)];
}

function ofOscillation(one: SightingFile, path: Path): FlightFault[] {
  const fault = (key: string, message: string): FlightFault[] => [{ path: [...path, key], message }];
  if (one.gains === undefined) return fault("gains", "missing; the gains at which it was seen (try {p: 410, d: 8})");
  if (ANSWERS.every((key) => one[key] === undefined))
    return fault("died_out", `missing; what was seen? (one or more of ${ANSWERS.join(", ")})`);
  if (one.pace !== undefined && one.picture === undefined)
    return fault("picture", "missing; slower, same or faster than which picture? Its frequency stands on the card");
  if (one.pace === undefined && one.picture !== undefined)
    return fault("pace", "missing; was it slower, the same or faster than the picture?");
  return contradicts(one) ? fault("pace", `${one.pace} than the picture, but the frequency says otherwise`) : [];
}

/** Whether the pace and the frequency that was counted exclude each other. */
function contradicts({ pace, picture = 0, frequency }: SightingFile): boolean {
  if (frequency === undefined) return false;
  if (pace === "faster") return frequency.value + frequency.size < picture;
  return pace === "slower" && frequency.value - frequency.size > picture;
}
