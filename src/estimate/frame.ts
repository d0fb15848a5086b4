// A craft as parts that weigh together what the scale said. The weights of arms, ducts and the rest are shares of what is
// left when motors and propellers are taken off; their sum is fixed, so that what is not known about them stands in sizes.
import { pow } from "../base/elementary.js";
import { COMMON } from "./estimate.js";
import type { RotorPlace } from "./layout.js";

/** A length in m and how far it may be off, in m; 0: as measured. */
export interface Length {
  readonly value: number;
  readonly spread: number;
}

export interface FramePart {
  readonly name: string;
  readonly shape: "box" | "cylinder" | "rod" | "point";
  readonly mass: number; // kg, of one
  readonly spread?: number; // kg
  readonly size?: readonly [Length, Length, Length];
  readonly diameter?: Length;
  readonly length?: Length;
  readonly at?: readonly [Length, Length, Length]; // absent: at every rotor
  readonly source: string;
}

export interface FrameInput {
  readonly places: readonly RotorPlace[];
  /** kg, with everything but the pack. */
  readonly weight: number;
  readonly packMass: number; // kg
  readonly propellerMass: number; // kg
  readonly propellerDiameter: number; // m
  readonly motor: { readonly mass: number; readonly diameter: number; readonly length: number };
  readonly ducts: boolean;
  /** Whether the body runs along an X of four, and is not a plate between arms all around. */
  readonly slim: boolean;
}

const exact = (value: number): Length => ({ value, spread: 0 });
const within = (value: number, share: number): Length => ({ value, spread: share * value });

/** kg that is left for arms, ducts, plates and electronics; not above 0: the weights contradict each other. */
export const restOf = ({ places, weight, motor, propellerMass }: FrameInput): number =>
  weight - places.length * (motor.mass + propellerMass);

/** Heights from the bottom plate: of the rotors' place, of the body. */
export interface Heights {
  readonly rotors: number;
  readonly body: number;
}

export function heightsOf({ places, motor }: FrameInput): Heights {
  return { rotors: tidy(0.6 * motor.length), body: tidy(0.2 * extent(places, "y")) };
}

const extent = (places: readonly RotorPlace[], of: "x" | "y"): number =>
  2 * Math.max(...places.map((place) => place[of]));

const SCALE = 0.01; // of the whole weight: the kitchen scale, and straps, tape and dirt

/** The parts; `weight` and `packMass` together are exactly what they weigh. */
export function frameParts(input: FrameInput): FramePart[] {
  const { places, motor, ducts, weight, packMass } = input;
  const count = places.length;
  const rest = restOf(input);
  const heights = heightsOf(input);
  const arm = grams(((ducts ? 0.18 : 0.27) * rest) / count);
  const duct = ducts ? grams((0.3 * rest) / count) : 0;
  const body = rest - count * (arm + duct);
  const across = { x: extent(places, "x"), y: extent(places, "y") };
  return [
    {
      name: "plates, electronics, cameras",
      shape: "box",
      mass: body,
      spread: SCALE * (weight + packMass),
      size: [
        within(tidy((input.slim ? 1.05 : 0.6) * across.x), 0.3),
        within(tidy(0.24 * across.y), 0.4),
        within(heights.body, 0.35),
      ],
      at: [exact(0), exact(0), within(heights.body / 2, 0.35)],
      source: `what is left of the weight; one body as long as such craft are, ${COMMON}`,
    },
    {
      name: "arms with motor leads",
      shape: "rod",
      mass: arm,
      source: `${ducts ? 18 : 27} % of what motors and propellers leave of the weight; ${COMMON}`,
    },
    {
      name: "motors",
      shape: "cylinder",
      mass: motor.mass,
      diameter: exact(motor.diameter),
      length: exact(motor.length),
      source: "",
    },
    { name: "propellers", shape: "point", mass: input.propellerMass, source: "" },
    ...(ducts ? [ductPart(duct, input.propellerDiameter)] : []),
    packPart(packMass, heights.body),
  ];
}

/** A thin ring of radius r turns like a solid cylinder of radius √2 r, about every axis. */
const ductPart = (mass: number, propellerDiameter: number): FramePart => ({
  name: "ducts",
  shape: "cylinder",
  mass,
  diameter: within(tidy(Math.SQRT2 * 1.06 * propellerDiameter), 0.1),
  length: within(tidy(0.25 * propellerDiameter), 0.4),
  source: `a guess: 30 % of what motors and propellers leave; the diameter is √2 of the ring's, which turns alike`,
});

const PACK_DENSITY = 2000; // kg/m^3, with shrink wrap and strap

/** On top of the body and in the middle, as long, wide and high as its weight makes likely. */
function packPart(mass: number, top: number): FramePart {
  const width = pow(mass / (PACK_DENSITY * 2), 1 / 3);
  const height = tidy(0.95 * width);
  return {
    name: "pack",
    shape: "box",
    mass,
    size: [within(tidy(2.1 * width), 0.25), within(tidy(width), 0.2), within(height, 0.2)],
    at: [
      { value: 0, spread: 0.006 },
      { value: 0, spread: 0.002 },
      { value: tidy(top + height / 2), spread: 0.012 },
    ],
    source: `weighed; size by weight, shifted until the craft balances; ${COMMON}. Slung below: give the third place a minus`,
  };
}

/** Whole tenths of a gram for the shares, so that the last part takes what rounding leaves. */
const grams = (kilograms: number): number => Math.round(1e4 * kilograms) / 1e4;

/** Whole millimetres. */
const tidy = (metres: number): number => Math.max(1, Math.round(1000 * metres)) / 1000;
