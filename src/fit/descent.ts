// How fast a craft fell, from its throttle alone: thrust against weight, summed.
import { type Craft, GRAVITY } from "../airframe/craft.js";
import { steadySpeed } from "../airframe/motor.js";
import { hoverInducedVelocity } from "../airframe/rotor.js";
import { trimAt } from "../airframe/trim.js";
import { numberAt } from "../base/at.js";
import type { FlightLog, Stretch } from "../flight/log.js";
import { mean } from "./windows.js";

/** s after which a fall is forgotten, since neither drag nor a slip of the weight is known. */
const FORGOTTEN = 8;

/**
 * Speed of descent over the induced velocity at each row of a stretch; below 0 it climbs. Mean thrust over the stretch is taken
 * for the weight, as the craft ends about as fast as it began. `duty` is the mean of all rotors.
 */
export function descentRatios(log: FlightLog, craft: Craft, duty: Float64Array, { from, to }: Stretch): Float64Array {
  const { airframe, thrustStatic, torqueStatic, density, arms } = craft;
  const voltsAt = new Map<number, number>();
  const volts = (row: number): number => {
    if (log.voltage !== null) return numberAt(log.voltage, row);
    const level = Math.round(numberAt(duty, row) * 100) / 100;
    const known = voltsAt.get(level) ?? trimAt(craft, level).volts;
    voltsAt.set(level, known);
    return known;
  };
  const thrust = Float64Array.from({ length: to - from }, (_, k) => {
    const speed = steadySpeed(numberAt(duty, from + k) * volts(from + k), airframe.motor, torqueStatic);
    return thrustStatic * speed * speed;
  });
  const weight = mean(thrust);
  let speed = 0;
  return thrust.map((lift) => {
    speed += log.step * (GRAVITY * (1 - lift / weight) - speed / FORGOTTEN);
    const induced = hoverInducedVelocity(
      (lift / weight) * ((craft.mass * GRAVITY) / arms.length),
      airframe.propeller.diameter,
      density,
    );
    return speed / Math.max(1e-3, induced);
  });
}
