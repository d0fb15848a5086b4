// The columns a flight file declares, as one list: each with the place in the log where its numbers go.
import type { Column, LogDeclaration } from "./flight.js";
import { type FlightLog, LOG_AXES } from "./log.js";

export interface Channel {
  readonly column: Column;
  /** What it holds, as a remark calls it: "rate of roll". */
  readonly holds: string;
}

/** Every channel but time, in the order in which `placed` expects their arrays. */
export function channelsOf({ rate, command, motor, throttle, voltage, rotorSpeed }: LogDeclaration): Channel[] {
  const of = (column: Column | null, holds: string): Channel[] => (column === null ? [] : [{ column, holds }]);
  return [
    ...LOG_AXES.flatMap((axis) => of(rate[axis], `rate of ${axis}`)),
    ...LOG_AXES.flatMap((axis) => of(command[axis], `commanded rate of ${axis}`)),
    ...motor.flatMap((column) => of(column, `motor of rotor ${column.rotor + 1}`)),
    ...of(throttle, "throttle"),
    ...of(voltage, "voltage"),
    ...rotorSpeed.flatMap((column) => of(column, `speed of rotor ${column.rotor + 1}`)),
  ];
}

type Placed = Pick<FlightLog, "rate" | "command" | "duty" | "throttle" | "voltage" | "rotorSpeed">;

/** The arrays of `channelsOf` where a log has them; `rotors`: how many the model has. */
export function placed(declaration: LogDeclaration, arrays: readonly Float64Array[], rotors: number): Placed {
  let next = 0;
  const take = (column: Column | null): Float64Array | null => (column === null ? null : (arrays[next++] ?? null));
  const axes = (of: LogDeclaration["rate"]) => ({ roll: take(of.roll), pitch: take(of.pitch), yaw: take(of.yaw) });
  const byRotor = (columns: LogDeclaration["motor"]): (Float64Array | null)[] => {
    const found = new Array<Float64Array | null>(rotors).fill(null);
    for (const column of columns) found[column.rotor] = take(column);
    return found;
  };
  return {
    rate: axes(declaration.rate),
    command: axes(declaration.command),
    duty: byRotor(declaration.motor),
    throttle: take(declaration.throttle),
    voltage: take(declaration.voltage),
    rotorSpeed: byRotor(declaration.rotorSpeed),
  };
}
