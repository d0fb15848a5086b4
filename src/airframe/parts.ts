// The parts of a model file as the bodies the inertia is summed from.
import type { Vector3 } from "./airframe.js";
import type { Part } from "./inertia.js";
import type { PartFile } from "./schema.js";

/** Every body of the listed parts; what stands at "rotors" is there once for each of them. */
export const bodiesOf = (parts: readonly PartFile[], rotors: readonly Vector3[]): Part[] =>
  parts.flatMap((part) => {
    const where = part.shape === "rod" ? part.to : part.at;
    const places = where === "rotors" ? rotors : [vector(where)];
    return places.flatMap((place) => bodies(part, place));
  });

function bodies(part: PartFile, at: Vector3): Part[] {
  const { mass } = part;
  switch (part.shape) {
    case "box":
      return [{ shape: "box", mass, size: vector(part.size), at }];
    case "cylinder":
      return [{ shape: "cylinder", axis: part.axis ?? "z", mass, radius: part.diameter / 2, length: part.length, at }];
    case "point":
      return [{ shape: "point", mass, at }];
    case "rod":
      return rod(mass, vector(part.from), at);
  }
}

/** A slender rod in any direction is exactly a sixth of its mass at each end and the rest in the middle. */
function rod(mass: number, from: Vector3, to: Vector3): Part[] {
  const middle: Vector3 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2];
  return [
    { shape: "point", mass: mass / 6, at: from },
    { shape: "point", mass: (4 * mass) / 6, at: middle },
    { shape: "point", mass: mass / 6, at: to },
  ];
}

/** A checked list of three as a vector. */
export const vector = ([x = 0, y = 0, z = 0]: readonly number[]): Vector3 => [x, y, z];
