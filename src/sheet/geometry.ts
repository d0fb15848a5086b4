// Where the rotors stand around the craft.
import type { Airframe, Vector3 } from "../airframe/airframe.js";

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** The middle of the rotors, m from the model's origin. */
const rotorsMiddle = ({ rotors }: Airframe): Vector3 => [
  mean(rotors.map(({ at }) => at[0])),
  mean(rotors.map(({ at }) => at[1])),
  mean(rotors.map(({ at }) => at[2])),
];

/** The centre of mass from the middle of the rotors, m. */
export function centreOffset(airframe: Airframe): Vector3 {
  const [x, y, z] = rotorsMiddle(airframe);
  const [cx, cy, cz] = airframe.centreOfMass;
  return [cx - x, cy - y, cz - z];
}

/** Root mean square distance of the rotors from the middle, m: by which roll, pitch and yaw are turned. */
export function armsOf(airframe: Airframe): { readonly roll: number; readonly pitch: number; readonly yaw: number } {
  const [x, y] = rotorsMiddle(airframe);
  const spread = (axis: 0 | 1, middle: number) => mean(airframe.rotors.map(({ at }) => (at[axis] - middle) ** 2));
  const [long, wide] = [spread(0, x), spread(1, y)];
  return { roll: Math.sqrt(wide), pitch: Math.sqrt(long), yaw: Math.sqrt(long + wide) };
}
