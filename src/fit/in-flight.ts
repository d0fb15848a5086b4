// A craft as it was flown: steady at the mean duty of its rotors, on the pack of that flight.
import type { Airframe } from "../airframe/airframe.js";
import { type Craft, craftUnder, STANDARD_DAY } from "../airframe/craft.js";
import { dutyByTable, packFactor } from "../airframe/duty.js";
import type { Mixer } from "../airframe/mixer.js";
import type { Trim } from "../airframe/powered.js";
import { trimAt } from "../airframe/trim.js";
import { at } from "../base/at.js";

/** What is known of the pack; a voltage under load, V, outweighs the charge (0 to 1). */
export interface PackInFlight {
  readonly charge: number;
  readonly voltage: number | null;
}

export interface SteadyFlight {
  readonly craft: Craft;
  readonly trim: Trim;
}

/**
 * A model as its duties act. A log holds duties: what a table and the pack's voltage made of the commands is in them already, so a
 * response that is measured from duties is compared with a craft that shapes none.
 */
export function inDuties(airframe: Airframe): Airframe {
  const { dutyTable: _table, packCompensation: _compensation, ...controller } = airframe.controller;
  return { ...airframe, controller };
}

/** `mixer` is that of the model as it is written: the controller does not know what the craft really is. */
export const craftOf = (airframe: Airframe, mixer: Mixer, charge: number): Craft => ({
  ...craftUnder(airframe, { ...STANDARD_DAY, charge }),
  mixer,
});

/** What a throttle becomes behind table and pack voltage, 0 to 1. */
export const collectiveDuty = ({ airframe: { controller } }: Craft, { throttle, volts }: Trim): number =>
  Math.min(1, packFactor(controller, volts) * dutyByTable(controller, throttle));

const ROUNDS = 8;
const CLOSE = 1e-9; // V

/** Steady flight at a mean duty (0 to 1), per duty. */
export function steadyAt(asFlown: Airframe, mixer: Mixer, duty: number, pack: PackInFlight): SteadyFlight {
  const airframe = inDuties(asFlown);
  let craft = craftOf(airframe, mixer, pack.charge);
  let trim = trimAt(craft, duty);
  if (pack.voltage === null) return { craft, trim };
  // The voltage at rest that gives the measured one under load.
  for (let round = 0; round < ROUNDS && Math.abs(trim.volts - pack.voltage) > CLOSE; round++) {
    craft = { ...craft, emf: pack.voltage + airframe.pack.resistance * drawn(trim) };
    trim = trimAt(craft, duty);
  }
  return { craft, trim };
}

/** Current out of the pack, A. */
const drawn = ({ duties, currents }: Trim): number =>
  duties.reduce((sum, duty, rotor) => sum + duty * at(currents, rotor), 0);
