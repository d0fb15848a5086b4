// An airframe under given surroundings: the numbers of SI physics that the loop, the trim and the theory share.
import { airDensity } from "./air.js";
import type { Airframe, Inertia, Vector3 } from "./airframe.js";
import { type Mixer, mixerOf } from "./mixer.js";
import { openCircuitVolts } from "./pack.js";
import { rotorCoefficients } from "./rotor.js";

/** Pack, payload and air of a trial. */
export interface Surroundings {
  readonly charge: number; // 0 to 1
  readonly payload: { readonly mass: number; readonly at: Vector3 } | null; // kg, m from the model's origin
  readonly altitude: number; // m, pressure altitude
  readonly temperature: number | null; // K; null: the standard day's
}

export const STANDARD_DAY: Surroundings = Object.freeze({ charge: 1, payload: null, altitude: 0, temperature: null });

export const GRAVITY = 9.80665; // m/s^2, ISO 80000-3 standard value

export interface Craft {
  readonly airframe: Airframe;
  readonly mass: number; // kg, with payload
  readonly inertia: Inertia; // kg m^2, about the centre of mass with payload
  /** m, of each rotor from that centre of mass. */
  readonly arms: readonly Vector3[];
  readonly spins: readonly (1 | -1)[];
  /** Of the bare airframe: the controller does not know the payload. */
  readonly mixer: Mixer;
  readonly density: number; // kg/m^3
  readonly thrustStatic: number; // N s^2
  readonly thrustInflow: number; // N s^2/m
  readonly torqueStatic: number; // N m s^2
  readonly torqueInflow: number; // N m s^2/m
  readonly rotorInertia: number; // kg m^2, bell and propeller
  readonly emf: number; // V, whole pack at rest
}

export function craftUnder(airframe: Airframe, around: Surroundings): Craft {
  const { mass, centre, inertia } = loaded(airframe, around.payload);
  const density = airDensity(around.altitude, around.temperature);
  return Object.freeze({
    airframe,
    mass,
    inertia,
    arms: airframe.rotors.map((rotor) => minus(rotor.at, centre)),
    spins: airframe.rotors.map((rotor) => rotor.spin),
    mixer: mixerOf(airframe.rotors, airframe.centreOfMass),
    density,
    ...rotorCoefficients(airframe.propeller, density),
    rotorInertia: airframe.motor.bellInertia + airframe.propeller.inertia,
    emf: openCircuitVolts(airframe.pack, around.charge),
  });
}

/** Mass, centre and inertia with the payload as a point mass (parallel-axis theorem). */
function loaded(
  airframe: Airframe,
  payload: Surroundings["payload"],
): { mass: number; centre: Vector3; inertia: Inertia } {
  if (payload === null) return { mass: airframe.mass, centre: airframe.centreOfMass, inertia: airframe.inertia };
  const mass = airframe.mass + payload.mass;
  const share = payload.mass / mass;
  const [dx, dy, dz] = minus(payload.at, airframe.centreOfMass);
  const centre = airframe.centreOfMass.map((c, k) => c + share * ([dx, dy, dz][k] ?? 0)) as unknown as Vector3;
  const reduced = airframe.mass * share;
  const bare = airframe.inertia;
  return {
    mass,
    centre,
    inertia: {
      xx: bare.xx + reduced * (dy * dy + dz * dz),
      yy: bare.yy + reduced * (dx * dx + dz * dz),
      zz: bare.zz + reduced * (dx * dx + dy * dy),
      xy: bare.xy - reduced * dx * dy,
      xz: bare.xz - reduced * dx * dz,
      yz: bare.yz - reduced * dy * dz,
    },
  };
}

const minus = (a: Vector3, b: Vector3): Vector3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
