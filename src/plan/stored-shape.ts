// The shape of a plan in map.json, for reading it back: SI. A baseline leaves out what only simulating needs.

import { z } from "zod";
import { ROTORS } from "../airframe/ranges.js";
import { spin, storedInertia } from "../airframe/stored-shape.js";
import { bool, expecting, int, list, listOf, number, object, positive, text, within } from "../base/read-back.js";
import { MOST_VARIANTS } from "../base/sizes.js";
import { LONGEST, SHORTEST } from "../sweep/ranges.js";
import { axisName, storedCondition, storedSweep } from "../sweep/stored-shape.js";

const perRotor = () => listOf(number(), ...ROTORS);
const vector = () => z.tuple([number(), number(), number()], expecting("three numbers"));

const trim = () =>
  object({
    throttle: within(0, 1),
    commands: vector(),
    duties: perRotor(),
    speeds: perRotor(),
    currents: perRotor(),
    volts: number(),
  });

const craft = () =>
  object({
    mass: positive(),
    inertia: storedInertia(),
    arms: listOf(vector(), ...ROTORS),
    spins: listOf(spin(), ...ROTORS),
    mixer: object({ roll: perRotor(), pitch: perRotor(), yaw: perRotor() }),
    density: positive(),
    thrustStatic: positive(),
    thrustInflow: positive(),
    torqueStatic: positive(),
    torqueInflow: number(),
    rotorInertia: positive(),
    emf: positive(),
  });

const gains = () => object({ p: number(), i: number(), d: number() });

const variant = () =>
  object({
    hovering: bool(),
    index: int().exactOptional(),
    script: text().exactOptional(),
    axis: axisName().exactOptional(),
    throttle: within(0, 1).exactOptional(),
    rate: number().exactOptional(),
    condition: int().exactOptional(),
    trim: trim().exactOptional(),
    duration: within(SHORTEST, LONGEST).exactOptional(),
    tail: object({ from: within(0, LONGEST), to: within(0, LONGEST) }).exactOptional(),
  });

/** Of a map of format gainscape.map/2. */
export const storedPlan = () =>
  object({
    digest: text(),
    sweep: storedSweep(),
    holding: object({ roll: gains(), pitch: gains() }).exactOptional(),
    conditions: list(object({ condition: storedCondition(), craft: craft(), hover: trim() })).exactOptional(),
    variants: list(variant(), MOST_VARIANTS),
  });

export type StoredPlan = z.output<ReturnType<typeof storedPlan>>;
