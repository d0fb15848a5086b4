// Every number of a model that the answers do not hold, estimated.
import { inUnitOf } from "../base/units.js";
import type { Answers } from "./answers.js";
import { COMMON, combined, type Estimate } from "./estimate.js";
import { bellInertia, KV_SPREAD, type MotorSize, motorResistance, motorSize, noLoadCurrent } from "./motor.js";
import {
  type PropellerSize,
  propellerInertia,
  propellerMass,
  staticCoefficients,
  zeroThrustAdvance,
} from "./propeller.js";
import { PROPELLER_ROWS, type PropellerRow } from "./propeller-rows.js";

/** What a bench table can tell in place of an estimate. */
export const BENCH_KEYS = ["ct", "cp", "kv", "resistance", "noLoadCurrent"] as const;
export type BenchKey = (typeof BENCH_KEYS)[number];
export type Benched = Readonly<Partial<Record<BenchKey, Estimate>>>;

export interface Numbers {
  readonly propellerMass: { readonly value: number; readonly source: string }; // kg
  readonly motor: MotorSize;
  readonly ct: Estimate;
  readonly cp: Estimate;
  readonly zeroThrustAdvance: Estimate;
  readonly propellerInertia: Estimate; // kg m^2
  readonly kv: Estimate; // rpm/V
  readonly resistance: Estimate; // ohm
  readonly noLoadCurrent: Estimate; // A
  readonly bellInertia: Estimate; // kg m^2
  readonly packResistance: Estimate; // ohm
  readonly latency: Estimate; // s
}

const propellerSize = ({ propeller }: Answers): PropellerSize => ({
  inches: inUnitOf(propeller.diameter, "length", "in"),
  pitchInches: inUnitOf(propeller.pitch, "length", "in"),
  blades: propeller.blades,
});

/** The numbers of a model, SI but for KV; `benched` in place of what it holds. */
export function numbersOf(
  answers: Answers,
  benched: Benched = {},
  rows: readonly PropellerRow[] = PROPELLER_ROWS,
): Numbers {
  const size = propellerSize(answers);
  const mass =
    answers.propeller.weight === undefined
      ? propellerMass(size)
      : { value: answers.propeller.weight, spread: WEIGHED, source: "weighed" };
  const motor = motorSize(answers.motor.weight, answers.motor.bell);
  const kv = inUnitOf(answers.motor.kv, "speedConstant", "rpm/V");
  const estimated: Numbers = {
    propellerMass: { value: tenths(mass.value), source: mass.source },
    motor: { ...motor, mass: { ...motor.mass, value: tenths(motor.mass.value) } },
    ...inAir(answers.ducts === "yes", size, rows),
    propellerInertia: propellerInertia(size, mass),
    kv: { value: kv, spread: KV_SPREAD, source: `its label; ± ${COMMON}` },
    resistance: motorResistance(kv, motor),
    noLoadCurrent: noLoadCurrent(kv, motor),
    bellInertia: bellInertia(motor),
    packResistance: packResistance(answers.pack),
    latency: latency(answers.loop_rate),
  };
  return { ...estimated, ...narrower(benched, estimated) };
}

/** What a bench table fixes more closely than the estimate does. */
export const narrower = (benched: Benched, estimated: Pick<Numbers, BenchKey>): Benched =>
  Object.fromEntries(
    BENCH_KEYS.flatMap((key) => {
      const found = benched[key];
      return found !== undefined && found.spread < estimated[key].spread ? [[key, found]] : [];
    }),
  );

const WEIGHED = 0.1; // a propeller on a scale that shows grams

/** Hundredths of a gram, in which parts are written. */
const tenths = (kilograms: number): number => Math.round(1e5 * kilograms) / 1e5;

// Momentum theory gives a shrouded rotor up to a quarter more thrust for the same power; small ones reach a part of it.
const DUCTED = { ct: [1.1, 0.15], cp: [1, 0.15], zeroThrustAdvance: [0.85, 0.2] } as const;
const BEST_MERIT = 0.79; // of the measured propellers

/** The coefficients, in ducts where there are some. */
function inAir(ducts: boolean, size: PropellerSize, rows: readonly PropellerRow[]) {
  const free = { ...staticCoefficients(size, rows), zeroThrustAdvance: zeroThrustAdvance(size) };
  if (!ducts) return free;
  const changed = (key: keyof typeof DUCTED): Estimate => {
    const [factor, spread] = DUCTED[key];
    const { value, spread: own, source } = free[key];
    return { value: factor * value, spread: combined(own, spread), source: `${source}; in ducts × ${factor}, a guess` };
  };
  const { ct, cp } = { ct: changed("ct"), cp: changed("cp") };
  const least = (Math.sqrt(2 / Math.PI) * ct.value * Math.sqrt(ct.value)) / BEST_MERIT;
  return { ct, cp: { ...cp, value: Math.max(cp.value, least) }, zeroThrustAdvance: changed("zeroThrustAdvance") };
}

const packResistance = ({ cells, capacity }: Answers["pack"]): Estimate => ({
  value: (cells * 0.005) / inUnitOf(capacity, "charge", "Ah") + 0.003,
  spread: 0.5,
  source: `5 mohm Ah a cell, and 3 mohm for leads and plug; ${COMMON}`,
});

const latency = (rate: number): Estimate => ({
  value: 1.5 / rate + 0.375e-3,
  spread: 0.5,
  source: `one and a half periods and the speed controller's own; ${COMMON}`,
});
