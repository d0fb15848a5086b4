// Thrust and torque of a propeller against its speed and the air that flows through it.
// Coefficients as propeller tables give them: n in revolutions per second, J = V/(nD).
import type { Propeller } from "./airframe.js";

/** T = thrustStatic w^2 - thrustInflow V w and Q = torqueStatic w^2 + torqueInflow V w; w in rad/s, V in m/s. */
export interface RotorCoefficients {
  readonly thrustStatic: number; // N s^2
  readonly thrustInflow: number; // N s^2/m
  readonly torqueStatic: number; // N m s^2
  readonly torqueInflow: number; // N s^2
}

/**
 * The rotor's laws at an air density (kg/m^3). Thrust falls linearly with advance ratio to zero at
 * zeroThrustAdvance; the power coefficient changes by cpSlope per unit of it. Written without
 * dividing by rotor speed, so both hold at standstill.
 */
export function rotorCoefficients(propeller: Propeller, density: number): RotorCoefficients {
  const { diameter, ct, cp, cpSlope, zeroThrustAdvance } = propeller;
  const turn = 2 * Math.PI;
  const cube = diameter * diameter * diameter; // products, since engines may round a power as they like
  const perSpeedSquared = (density * cube * diameter) / (turn * turn);
  return Object.freeze({
    thrustStatic: ct * perSpeedSquared,
    thrustInflow: (ct * density * cube) / (turn * zeroThrustAdvance),
    torqueStatic: (cp * perSpeedSquared * diameter) / turn,
    torqueInflow: cpSlope * perSpeedSquared,
  });
}

/** Speed of the air through a hovering rotor disc, m/s, by momentum theory: thrust in N, diameter in m. */
export function hoverInducedVelocity(thrust: number, diameter: number, density: number): number {
  const area = (Math.PI * diameter * diameter) / 4;
  return Math.sqrt(thrust / (2 * density * area));
}

/** Share of the shaft power that an ideal rotor would need for the same thrust; above 1 is impossible. */
export function figureOfMerit(ct: number, cp: number): number {
  return (Math.sqrt(2 / Math.PI) * ct * Math.sqrt(ct)) / cp;
}

/**
 * Change of cp per unit of advance ratio: least squares over the rows with 0 < j <= upToJ, through the
 * static value cp0. RangeError when no row lies there.
 */
export function cpSlopeFromTable(rows: readonly { j: number; cp: number }[], cp0: number, upToJ: number): number {
  const used = rows.filter(({ j }) => j > 0 && j <= upToJ);
  if (used.length === 0) throw new RangeError(`no row of the table has an advance ratio above 0 and up to ${upToJ}`);
  const slopes = used.reduce((sum, { j, cp }) => sum + j * (cp - cp0), 0);
  return slopes / used.reduce((sum, { j }) => sum + j * j, 0);
}
