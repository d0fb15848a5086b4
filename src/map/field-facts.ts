// What a pilot can hold a craft against before and in its first flight: which motor is where and turns which way, which of them
// speed up when a stick moves, and what a pack reads in hover. All of it follows from the model that a map carries.
import type { Airframe } from "../airframe/airframe.js";
import { allocationFault, type Mixer, mixerOf } from "../airframe/mixer.js";
import type { StoredPlan } from "../plan/stored-shape.js";
import type { StabilityMap } from "./format.js";
import { storedAirframe } from "./simulable.js";

export interface FieldFacts {
  /** Null where the map lacks a part of its model. */
  readonly motors: MotorPlan | null;
  /** By condition; in a map that lacks a part of its model or plan some facts are null. */
  readonly packs: Readonly<Record<string, PackFacts>>;
}

export interface PackFacts {
  readonly charge: number | null; // fraction
  readonly hoverVoltage: number; // V under load
  readonly cellVoltage: number | null; // V under load, per cell
  readonly hoverThrottle: number; // %
}

/** Seen from above, nose up; motors are counted from 1 in the order of the model file. */
export interface MotorPlan {
  readonly rotors: readonly RotorPlace[];
  /** Of a propeller, in the unit of the places. */
  readonly radius: number;
  /** Motors that speed up when the stick asks for it. */
  readonly speedUp: Readonly<Record<StickMove, readonly number[]>>;
  /** Motors that slow down for it: those that speed up against the same move of the craft. */
  readonly slowDown: Readonly<Record<StickMove, readonly number[]>>;
}

type StickMove = "roll right" | "nose down" | "yaw right";

/** From the centre of mass; the farthest motor is 1 away. */
export interface RotorPlace {
  readonly right: number;
  readonly forward: number;
  readonly clockwise: boolean;
}

export function fieldFacts(map: StabilityMap): FieldFacts {
  const airframe = storedAirframe(map);
  const conditions = (map.plan as StoredPlan | null)?.sweep?.conditions ?? [];
  const cells = airframe?.pack.cells ?? null;
  const packs = Object.entries(map.hover).map(([name, { voltage, throttle }]): [string, PackFacts] => [
    name,
    {
      charge: conditions.find((one) => one.name === name)?.charge ?? null,
      hoverVoltage: voltage,
      cellVoltage: cells === null ? null : voltage / cells,
      hoverThrottle: throttle,
    },
  ]);
  return { motors: airframe === null ? null : motorPlan(airframe), packs: Object.fromEntries(packs) };
}

/** Less than this share of the hardest-driven motor's part, and a motor stays as it is for the eye and the ear. Ours, no source. */
const NOTICEABLE = 0.1;

function motorPlan({ rotors, centreOfMass, propeller }: Airframe): MotorPlan | null {
  if (allocationFault(rotors, centreOfMass) !== null) return null;
  const mixer = mixerOf(rotors, centreOfMass);
  const places = rotors.map(({ at: [x, y] }) => ({ right: centreOfMass[1] - y, forward: x - centreOfMass[0] }));
  const farthest = Math.max(...places.map(({ right, forward }) => Math.sqrt(right * right + forward * forward)));
  if (!(farthest > 0 && Number.isFinite(farthest))) return null;
  return {
    rotors: places.map(({ right, forward }, k) => ({
      right: right / farthest,
      forward: forward / farthest,
      clockwise: rotors[k]?.spin === -1,
    })),
    radius: propeller.diameter / 2 / farthest,
    speedUp: movedMotors(mixer, 1),
    slowDown: movedMotors(mixer, -1),
  };
}

/** A roll to the right and a nose that goes down are positive commands; yaw is positive to the left. */
function movedMotors({ roll, pitch, yaw }: Mixer, sign: 1 | -1): MotorPlan["speedUp"] {
  const moved = (parts: readonly number[], way: number) =>
    parts.flatMap((part, k) => (way * part > NOTICEABLE ? [k + 1] : []));
  return { "roll right": moved(roll, sign), "nose down": moved(pitch, sign), "yaw right": moved(yaw, -sign) };
}
