// From rotor geometry to the mixer: which duty each rotor adds for a unit of roll, pitch and yaw command.
import { Matrix, pseudoInverse, SingularValueDecomposition } from "ml-matrix";
import type { Rotor, Vector3 } from "./airframe.js";

export interface Mixer {
  /** Duty per unit of command, one per rotor; the hardest-driven rotor has magnitude 1. */
  readonly roll: readonly number[];
  readonly pitch: readonly number[];
  readonly yaw: readonly number[];
}

/** Rows: thrust, roll, pitch and yaw torque of each rotor for a unit of thrust (or drag) at it. */
function allocation(rotors: readonly Rotor[], centre: Vector3): Matrix {
  return new Matrix([
    rotors.map(() => 1),
    rotors.map((rotor) => rotor.at[1] - centre[1]),
    rotors.map((rotor) => centre[0] - rotor.at[0]),
    rotors.map((rotor) => -rotor.spin),
  ]);
}

/** The first thing these rotors cannot produce, or null: the 4 x N allocation matrix must have rank 4. */
export function allocationFault(rotors: readonly Rotor[], centre: Vector3): string | null {
  const matrix = allocation(rotors, centre);
  const names = ["thrust", "roll", "pitch", "yaw"];
  for (let row = 1; row < 4; row++) {
    const length = Math.sqrt(matrix.getRow(row).reduce((sum, value) => sum + value * value, 0));
    if (length > 0) matrix.mulRow(row, 1 / length);
    const upTo = matrix.subMatrix(0, row, 0, rotors.length - 1);
    if (new SingularValueDecomposition(upTo, { autoTranspose: true }).rank < row + 1) return names[row] ?? null;
  }
  return null;
}

/** Pseudo-inverse of the allocation, each column scaled to a largest entry of 1. Rank must be 4. */
export function mixerOf(rotors: readonly Rotor[], centre: Vector3): Mixer {
  const inverse = pseudoInverse(allocation(rotors, centre));
  const column = (index: number): readonly number[] => {
    const values = inverse.getColumn(index);
    const largest = Math.max(...values.map(Math.abs));
    return Object.freeze(values.map((value) => clean(value / largest)));
  };
  return Object.freeze({ roll: column(1), pitch: column(2), yaw: column(3) });
}

/** Twelve decimals: symmetric frames get exactly symmetric mixers whatever the decomposition's rounding. */
const clean = (value: number): number => Math.round(value * 1e12) / 1e12 + 0;
