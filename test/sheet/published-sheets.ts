// Craft whose sheets can be worked out elsewhere: the worked examples of motors on measured propellers, mounted on a plain X,
// and published research craft with motors that fit them.
import type { Airframe, Pack } from "../../src/airframe/airframe.js";
import { motorConstant } from "../../src/airframe/motor.js";
import { type Published, publishedAirframe } from "../airframe/published-sets.js";
import { stretchedX } from "../fixtures/airframe.js";

/** A motor with its propeller on four rotors, and a stiff pack that stands at these volts when full. */
export interface Mounted {
  readonly kv: number; // rpm/V
  readonly resistance: number; // ohm
  readonly noLoadCurrent: number; // A
  readonly rotorInertia: number; // kg m^2
  readonly diameter: number; // m
  readonly ct: number;
  readonly cp: number;
}

// KV 2300 on the 5.0x3.75 two-blade propeller at 6913 rpm, KV 920 on the 8x3.8 at 5411 rpm (UIUC Propeller Database); round
// example values of a motor.
export const SMALL_MOTOR: Mounted = {
  kv: 2300,
  resistance: 0.06,
  noLoadCurrent: 0.8,
  rotorInertia: 8e-6,
  diameter: 0.127,
  ct: 0.129589,
  cp: 0.089348,
};
export const LARGE_MOTOR: Mounted = {
  kv: 920,
  resistance: 0.12,
  noLoadCurrent: 0.5,
  rotorInertia: 3e-5,
  diameter: 0.2032,
  ct: 0.1048,
  cp: 0.0447,
};

const stiff = (volts: number): Pack => ({
  cells: 1,
  capacity: 3600,
  resistance: 1e-12,
  openCircuit: [
    [0, volts],
    [1, volts],
  ],
});

/** A plain X of 0.4 kg with arms of 0.1 m to either side; the sheet's level at 70 % gives the motor `volts`. */
export function mounted(motor: Mounted, volts: number): Airframe {
  const { kv, resistance, noLoadCurrent, rotorInertia, diameter, ct, cp } = motor;
  const share = 0.6 * rotorInertia;
  return {
    ...stretchedX,
    mass: 0.4,
    inertia: { xx: 1e-3, yy: 2e-3, zz: 3e-3, xy: 0, xz: 0, yz: 0 },
    rotors: stretchedX.rotors.map(({ at: [x, y], spin }) => ({
      spin,
      at: [0.1 * Math.sign(x), 0.1 * Math.sign(y), 0],
    })),
    propeller: { diameter, blades: 2, ct, cp, cpSlope: 0, zeroThrustAdvance: 0.8, inertia: share },
    motor: { constant: motorConstant(kv), resistance, noLoadCurrent, bellInertia: rotorInertia - share },
    pack: stiff(volts / 0.7),
  };
}

/**
 * A published set with a motor that turns its rotors at their hover speed at 36 % of a full pack and loses a fifth of its volts
 * in its windings; what the set does not say is ours.
 */
export function fittedAirframe(set: Published, diameter: number, rotorInertia: number): Airframe {
  const bare = publishedAirframe({ ...set, diameter });
  const volts = 0.36 * 4 * 4.2;
  const constant = (0.8 * volts) / set.hover;
  const current = (set.kQ * set.hover * set.hover) / constant;
  return {
    ...bare,
    propeller: { ...bare.propeller, inertia: 0.6 * rotorInertia },
    motor: {
      constant,
      resistance: (0.2 * volts) / current,
      noLoadCurrent: 0.05 * current,
      bellInertia: 0.4 * rotorInertia,
    },
    pack: { ...bare.pack, cells: 4 },
  };
}
