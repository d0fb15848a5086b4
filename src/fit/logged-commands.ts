// What the controller commanded of each rotor, from the duties it wrote: the table and what makes up for the pack turned round.
import type { Airframe } from "../airframe/airframe.js";
import { commandByTable, packFactor } from "../airframe/duty.js";
import { filtered, lowPassStage } from "../airframe/filter.js";
import { at, numberAt } from "../base/at.js";
import { allDuties } from "../flight/axis-commands.js";
import type { FlightLog } from "../flight/log.js";

const NO_DUTIES = "the log has no duty of every rotor, so nobody knows what the controller answered";
const NO_VOLTAGE = "the controller makes up for the pack's voltage, and the log has none";

export interface LoggedCommands {
  /** Fraction, per rotor; a duty at its limit gives what would have led there. */
  readonly rotors: readonly Float64Array[];
  /** Collective command, fraction: as logged, else the rotors' mean. */
  readonly throttle: Float64Array;
}

/** Or why the log does not say. */
export function loggedCommands(log: FlightLog, { controller }: Airframe): LoggedCommands | string {
  const duties = allDuties(log);
  if (duties === null) return NO_DUTIES;
  const { packCompensation } = controller;
  if (packCompensation !== undefined && log.voltage === null) return NO_VOLTAGE;
  const volts = packCompensation === undefined ? null : slowVolts(log, packCompensation.cutoff);
  const factor = (row: number): number => (volts === null ? 1 : packFactor(controller, numberAt(volts, row)));
  const rotors = duties.map((duty) => duty.map((value, row) => commandByTable(controller, value / factor(row))));
  const mean = at(rotors, 0).map((_, row) => rotors.reduce((sum, one) => sum + numberAt(one, row), 0) / rotors.length);
  const throttle = mean.map((value, row) => {
    const logged = log.throttle?.[row] ?? Number.NaN;
    return Number.isNaN(logged) ? value : logged;
  });
  return { rotors, throttle };
}

/** The logged voltage behind the controller's low-pass; where a row has none, the last one stays. */
function slowVolts({ voltage, step }: FlightLog, cutoff: number): Float64Array {
  let last = voltage?.find(Number.isFinite) ?? Number.NaN;
  const everyRow = Float64Array.from(voltage ?? [], (value) => {
    if (Number.isFinite(value)) last = value;
    return last;
  });
  const rate = 1 / step;
  return cutoff < rate / 2 ? filtered(everyRow, [lowPassStage({ order: 1, cutoff }, rate)]) : everyRow;
}
