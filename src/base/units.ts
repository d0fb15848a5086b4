// The kinds of quantities people write ("5.1 in", "45 %"), their units, and the SI numbers inside. Every dimensional
// value in a file carries its unit, so a number can never be taken for another kind. Factors: NIST SP 811, exact.

/** A unit: SI value = written * times / over + plus. Kept as a fraction so that 620 g is exactly 0.62 kg. */
interface Unit {
  readonly times: number;
  readonly over: number;
  readonly plus: number;
}

interface KindRow {
  /** With its article, as it stands in a sentence. */
  readonly title: string;
  /** Every unit of the kind, in the order messages name them. */
  readonly units: Readonly<Record<string, Unit>>;
  /** Units in which results are shown, largest first. */
  readonly shown: readonly string[];
}

const unit = (times: number, over = 1, plus = 0): Unit => Object.freeze({ times, over, plus });
const kind = (title: string, units: Record<string, Unit>, shown = Object.keys(units)): KindRow =>
  Object.freeze({ title, units: Object.freeze(units), shown: Object.freeze(shown) });

const DEGREE = Math.PI / 180; // rad
const RPM = (2 * Math.PI) / 60; // rad/s

/** One % per 100 deg/s in fraction per (rad/s): the display unit of P. */
export const P_UNIT = 0.01 / (100 * DEGREE);
/** One % per 100 deg in fraction per rad: the unit of I. */
export const I_UNIT = 0.01 / (100 * DEGREE);
/** One % per 1000 deg/s^2 in fraction per (rad/s^2): the unit of D. */
export const D_UNIT = 0.01 / (1000 * DEGREE);

/** Every kind of quantity a file may hold. The SI unit is the one whose factor is 1. */
export const KINDS = Object.freeze({
  mass: kind("a mass", { kg: unit(1), g: unit(1, 1e3), mg: unit(1, 1e6) }),
  length: kind(
    "a length",
    { mm: unit(1, 1e3), cm: unit(1, 1e2), m: unit(1), km: unit(1e3), in: unit(254, 1e4), ft: unit(3048, 1e4) },
    ["m", "mm"],
  ),
  share: kind("a share", { "%": unit(1, 100) }),
  duration: kind("a time", { s: unit(1), ms: unit(1, 1e3), us: unit(1, 1e6) }),
  frequency: kind("a frequency", { kHz: unit(1e3), Hz: unit(1) }),
  angle: kind("an angle", { deg: unit(DEGREE), rad: unit(1) }, ["deg"]),
  rate: kind("an angular rate", { "deg/s": unit(DEGREE), "rad/s": unit(1) }, ["deg/s"]),
  noiseDensity: kind("a noise density", { "deg/s/sqrt(Hz)": unit(DEGREE), "rad/s/sqrt(Hz)": unit(1) }, [
    "deg/s/sqrt(Hz)",
  ]),
  speed: kind("a speed", { "m/s": unit(1), "km/h": unit(1, 3.6) }, ["m/s"]),
  wakeRatio: kind("a multiple of the hover induced velocity", { vh: unit(1) }),
  inertia: kind("a moment of inertia", { "kg m^2": unit(1), "g cm^2": unit(1, 1e7), "g mm^2": unit(1, 1e9) }, [
    "g cm^2",
  ]),
  speedConstant: kind("a motor speed constant", { "rpm/V": unit(RPM), "rad/s/V": unit(1) }, ["rpm/V"]),
  resistance: kind("a resistance", { ohm: unit(1), mohm: unit(1, 1e3) }),
  current: kind("a current", { A: unit(1), mA: unit(1, 1e3) }),
  voltage: kind("a voltage", { V: unit(1), mV: unit(1, 1e3) }),
  charge: kind("a pack capacity", { mAh: unit(36, 10), Ah: unit(3600), C: unit(1) }, ["mAh"]),
  temperature: kind("a temperature", { degC: unit(1, 1, 273.15), K: unit(1) }, ["degC"]),
  level: kind("a gain in decibels", { dB: unit(1) }),
  pGain: kind("a P gain", { "%/(100 deg/s)": unit(P_UNIT) }),
  iGain: kind("an I gain", { "%/(100 deg)": unit(I_UNIT) }),
  dGain: kind("a D gain", { "%/(1000 deg/s^2)": unit(D_UNIT) }),
});

export type Kind = keyof typeof KINDS;

export const KIND_NAMES: readonly Kind[] = Object.freeze(Object.keys(KINDS) as Kind[]);

/** The kind a unit belongs to, or null where there is none. */
export function kindOfUnit(name: string): Kind | null {
  return KIND_NAMES.find((candidate) => Object.hasOwn(KINDS[candidate].units, name)) ?? null;
}

/** An SI number in a unit of its kind: the given one, or the largest shown unit in which it is at least 1. */
export function quantityText(value: number, of: Kind, inUnit?: string): string {
  const name = inUnit ?? shownUnit(value, of);
  return `${figures(numberInUnit(value, KINDS[of].units[name]))} ${name}`;
}

/** The largest shown unit of the kind in which an SI number is at least 1. */
export function shownUnit(value: number, of: Kind): string {
  const { units, shown } = KINDS[of];
  const fits = (name: string): boolean => Math.abs(numberInUnit(value, units[name])) >= 0.99999;
  return (value === 0 ? shown[0] : (shown.find(fits) ?? shown.at(-1))) ?? "";
}

/** An SI number as written in a unit of its kind, as a number. */
export const inUnitOf = (value: number, of: Kind, name: string): number => numberInUnit(value, KINDS[of].units[name]);

/** A number to print: four significant figures, no trailing zeros. */
export const figures = (value: number): string => String(Number(value.toPrecision(4)) + 0);

const numberInUnit = (value: number, by: Unit = unit(1)): number => ((value - by.plus) * by.over) / by.times;
