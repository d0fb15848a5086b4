// What a flight holds, what is missing, and what that keeps a fit from telling. Seconds, hertz and counts stand in the keys.
import type { Airframe } from "../airframe/airframe.js";
import type { Flight } from "./flight.js";
import { type FlightLog, LOG_AXES, type Remark, type Stretch } from "./log.js";
import { lasting } from "./stretches.js";

export interface FlightSummary {
  readonly title: string;
  readonly model: { readonly file: string; readonly name: string; readonly version: string };
  /** Null where the flight file holds sightings alone. */
  readonly log: LogSummary | null;
  readonly sightings: number;
  /** What is not there, and what cannot be told without it. */
  readonly missing: readonly Gap[];
}

export interface LogSummary {
  readonly file: string;
  readonly rows: number;
  readonly seconds: number;
  readonly rowsPerSecond: number;
  readonly usableSeconds: number;
  readonly stretches: number;
  /** "rate of roll, pitch and yaw". */
  readonly holds: readonly string[];
  readonly remarks: readonly Remark[];
}

export interface Gap {
  readonly what: string;
  readonly without: string;
}

export function flightSummary(
  flight: Flight,
  log: FlightLog | null,
  files: { readonly model: string; readonly log: string | null },
  { name, version, rotors }: Airframe,
): FlightSummary {
  return {
    title: flight.title,
    model: { file: files.model, name, version },
    log: log === null ? null : logSummary(log, files.log ?? ""),
    sightings: flight.sightings.length,
    missing: log === null ? [] : gaps(flight, log, rotors.length),
  };
}

function logSummary(log: FlightLog, file: string): LogSummary {
  const { time, stretches, step, remarks } = log;
  return {
    file,
    rows: time.length,
    seconds: lasting(time, { from: 0, to: time.length }),
    rowsPerSecond: 1 / step,
    usableSeconds: stretches.reduce((sum: number, one: Stretch) => sum + lasting(time, one), 0),
    stretches: stretches.length,
    holds: holds(log),
    remarks,
  };
}

function holds(log: FlightLog): string[] {
  const axes = (of: FlightLog["rate"]) => LOG_AXES.filter((axis) => of[axis] !== null);
  const some = (title: string, names: readonly string[]): string[] =>
    names.length === 0 ? [] : [`${title} ${inWords(names)}`];
  const rotors = (of: FlightLog["duty"]) => of.flatMap((one, rotor) => (one === null ? [] : [`${rotor + 1}`]));
  return [
    ...some("rate of", axes(log.rate)),
    ...some("commanded rate of", axes(log.command)),
    ...some("motor of rotor", rotors(log.duty)),
    ...(log.throttle === null ? [] : ["throttle"]),
    ...(log.voltage === null ? [] : ["voltage"]),
    ...some("speed of rotor", rotors(log.rotorSpeed)),
  ];
}

const inWords = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;

function gaps({ gains, pack }: Flight, log: FlightLog, rotors: number): Gap[] {
  const found: Gap[] = [];
  const put = (what: string, without: string): void => void found.push({ what, without });
  const rates = LOG_AXES.filter((axis) => log.rate[axis] === null);
  if (rates.length > 0) put(`rate of ${inWords(rates)}`, "nothing of that axis");
  const duties = log.duty.filter((one) => one !== null).length;
  if (duties < rotors)
    put(
      duties === 0 ? "motors" : `motors of ${rotors - duties} of ${rotors} rotors`,
      "no axis command: authority, lag, delay and units of gains stay as they are",
    );
  const commands = LOG_AXES.filter((axis) => log.command[axis] === null);
  if (commands.length > 0)
    put(
      `commanded rate of ${inWords(commands)}`,
      "moves of the sticks cannot be told from gusts, nor what one unit of P and I is worth",
    );
  const unset = LOG_AXES.filter((axis) => gains[axis] === undefined);
  if (unset.length > 0) put(`gains of ${inWords(unset)}`, "not what one unit of them is worth");
  if (log.throttle === null && duties < rotors) put("throttle", "nothing of how the craft changes with throttle");
  if (log.voltage === null)
    put("voltage", `the pack's voltage is the model's${pack.charge === null ? ", fresh" : ", at the charge given"}`);
  if (log.rotorSpeed.every((one) => one === null))
    put("rotor speeds", "the motors' lag only together with the body; vibration lines by the model's speeds");
  return found;
}
