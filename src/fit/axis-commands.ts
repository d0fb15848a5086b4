// The mixed axis commands of a log: what roll, pitch and yaw command its duties hold.
import { Matrix, pseudoInverse } from "ml-matrix";
import type { Airframe } from "../airframe/airframe.js";
import { mixerOf } from "../airframe/mixer.js";
import { at, numberAt } from "../base/at.js";
import type { FlightLog, LogAxis } from "../flight/log.js";

/**
 * Roll, pitch and yaw command (fraction) of each row, by least squares through the model's mixer and a collective; exact where
 * the craft mixes as the model does. Null unless the duty of every rotor was logged.
 */
export function axisCommands(
  { duty }: Pick<FlightLog, "duty">,
  { rotors, centreOfMass }: Airframe,
): Readonly<Record<LogAxis, Float64Array>> | null {
  const logged = duty.filter((column) => column !== null);
  if (logged.length < rotors.length || duty.length !== rotors.length) return null;
  const mixer = mixerOf(rotors, centreOfMass);
  const mixed = new Matrix([rotors.map(() => 1), [...mixer.roll], [...mixer.pitch], [...mixer.yaw]]).transpose();
  const back = pseudoInverse(mixed);
  const command = (row: number): Float64Array => {
    const shares = back.getRow(row);
    const values = new Float64Array(at(logged, 0).length);
    for (const [rotor, column] of logged.entries()) {
      const share = at(shares, rotor);
      for (let k = 0; k < values.length; k++) values[k] = numberAt(values, k) + share * numberAt(column, k);
    }
    return values;
  };
  return { roll: command(1), pitch: command(2), yaw: command(3) };
}
