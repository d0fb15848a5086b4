// A resolved model as map.json keeps it, for reading it back: SI, and nothing outside of what a model file could have said
// where a trial's cost hangs on it.
import { z } from "zod";
import {
  between,
  counted,
  list,
  listOf,
  number,
  part,
  positive,
  text,
  told,
  whole,
  within,
} from "../base/read-back.js";
import { CUTOFF, HARMONIC, LATENCY, RATE, ROTORS, STAGES, SUBSTEPS, VIBRATIONS } from "./ranges.js";

const vector = () => z.tuple([number(), number(), number()], told("three numbers"));
const stages = () =>
  listOf(part({ order: counted(1, 2), cutoff: between("frequency", ...CUTOFF) }), STAGES[0], STAGES[1]);
const share = () => within(0, 1);
const swept = () => part({ p: number().nullable(), i: number(), d: number().nullable() });

export const spin = () => z.union([z.literal(1), z.literal(-1)], told("1 or -1"));

export const keptInertia = () =>
  part({ xx: positive(), yy: positive(), zz: positive(), xy: number(), xz: number(), yz: number() });

/** Of a map of format gainscape.map/1. */
export const keptModel = () =>
  part({
    name: text(),
    version: text(),
    title: text(),
    mass: positive(),
    centreOfMass: vector(),
    inertia: keptInertia(),
    rotors: listOf(part({ at: vector(), spin: spin() }), ...ROTORS),
    propeller: part({
      diameter: positive(),
      blades: whole(),
      ct: positive(),
      cp: positive(),
      cpSlope: number(),
      zeroThrustAdvance: positive(),
      inertia: positive(),
    }),
    motor: part({ constant: positive(), resistance: positive(), noLoadCurrent: number(), bellInertia: positive() }),
    pack: part({
      cells: counted(1, 14),
      capacity: positive(),
      resistance: positive(),
      openCircuit: listOf(z.tuple([share(), positive()], told("a charge and a voltage")), 2, 101),
    }),
    sensing: part({
      noiseDensity: number(),
      lowPass: stages(),
      vibration: listOf(part({ harmonic: within(...HARMONIC), atHover: number() }), ...VIBRATIONS),
    }),
    controller: part({
      rate: between("frequency", ...RATE),
      latency: between("duration", ...LATENCY),
      idle: share(),
      substeps: counted(...SUBSTEPS),
      derivativeFilter: stages(),
      integralLimit: share(),
      roll: swept(),
      pitch: swept(),
      yaw: part({ p: number(), i: number(), d: number() }),
      scale: part({ p: positive(), d: positive() }).nullable(),
    }),
    wash: part({ rms: share(), loss: share(), revolutions: positive(), correlation: share() }),
    defaulted: list(text()),
  });
