// From a rotor's command to its duty in one control period, where the controller is extended.
import {
  type Index,
  maximum,
  minimum,
  type UniformMemory,
  type Varying,
  type VaryingMemory,
} from "../base/lane-numbers.js";
import * as m from "./memory.js";

/** What duties are multiplied by: nominal over the pack's voltage behind a low-pass of order 1, which goes a period on. */
export function packFactor(craft: UniformMemory, state: VaryingMemory): Varying {
  const measured: Varying = craft[m.VOLTS_SHARE] * state[m.PACK_VOLTS];
  const volts: Varying = measured + state[m.VOLTS_MEMORY];
  state[m.VOLTS_MEMORY] = measured - craft[m.VOLTS_POLE] * volts;
  return craft[m.NOMINAL_VOLTS] / volts;
}

/** The duty of a command by the table of `bends` from `table` on, times `factor`. */
export function dutyFor(craft: UniformMemory, command: Varying, factor: Varying, table: Index, bends: Index): Varying {
  let duty: Varying = craft[m.DUTY_START] + craft[m.DUTY_SLOPE] * command;
  for (let n: Index = 0; n < bends; n++) {
    const fromBend: Varying = maximum(craft[table + 2 * n], command);
    duty += craft[table + 2 * n + 1] * fromBend;
  }
  return maximum(craft[m.DUTY_FLOOR], minimum(craft[m.DUTY_CEILING], factor * duty));
}
