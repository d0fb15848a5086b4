// Quantities as people write them ("5.1 in", "45 %") and the SI numbers inside. Every dimensional value
// in a file carries its unit, so a number can never be taken for another kind. Factors: NIST SP 811, exact.

/** A unit: SI value = written * times / over + plus. Kept as a fraction so that 620 g is exactly 0.62 kg. */
interface Unit {
  readonly times: number;
  readonly over: number;
  readonly plus: number;
}

interface KindRow {
  /** With its article, as it stands in a sentence. */
  readonly title: string;
  readonly example: string;
  /** Every unit of the kind; the first ones listed are offered first. */
  readonly units: Readonly<Record<string, Unit>>;
  /** Units people read results in, largest first. */
  readonly shown: readonly string[];
}

const unit = (times: number, over = 1, plus = 0): Unit => Object.freeze({ times, over, plus });
const kind = (title: string, example: string, units: Record<string, Unit>, shown = Object.keys(units)): KindRow =>
  Object.freeze({ title, example, units: Object.freeze(units), shown: Object.freeze(shown) });

const DEGREE = Math.PI / 180; // rad
const RPM = (2 * Math.PI) / 60; // rad/s

/** One % per 100 deg/s in fraction per (rad/s): the unit P is spoken of in. */
export const P_UNIT = 0.01 / (100 * DEGREE);
/** One % per 100 deg in fraction per rad: the unit of I. */
export const I_UNIT = 0.01 / (100 * DEGREE);
/** One % per 1000 deg/s^2 in fraction per (rad/s^2): the unit of D. */
export const D_UNIT = 0.01 / (1000 * DEGREE);

/** Every kind of quantity a file may hold. The SI unit is the one whose factor is 1. */
export const KINDS = Object.freeze({
  mass: kind("a mass", "620 g", { kg: unit(1), g: unit(1, 1e3), mg: unit(1, 1e6) }),
  length: kind(
    "a length",
    "150 mm",
    { mm: unit(1, 1e3), cm: unit(1, 1e2), m: unit(1), km: unit(1e3), in: unit(254, 1e4), ft: unit(3048, 1e4) },
    ["m", "mm"],
  ),
  share: kind("a share", "45 %", { "%": unit(1, 100) }),
  duration: kind("a time", "1.0 ms", { s: unit(1), ms: unit(1, 1e3), us: unit(1, 1e6) }),
  frequency: kind("a frequency", "180 Hz", { kHz: unit(1e3), Hz: unit(1) }),
  angle: kind("an angle", "45 deg", { deg: unit(DEGREE), rad: unit(1) }, ["deg"]),
  rate: kind("an angular rate", "500 deg/s", { "deg/s": unit(DEGREE), "rad/s": unit(1) }, ["deg/s"]),
  noiseDensity: kind(
    "a noise density",
    "0.01 deg/s/sqrt(Hz)",
    { "deg/s/sqrt(Hz)": unit(DEGREE), "rad/s/sqrt(Hz)": unit(1) },
    ["deg/s/sqrt(Hz)"],
  ),
  speed: kind("a speed", "8 m/s", { "m/s": unit(1), "km/h": unit(1, 3.6) }, ["m/s"]),
  wakeRatio: kind("a multiple of the hover induced velocity", "1.25 vh", { vh: unit(1) }),
  inertia: kind(
    "a moment of inertia",
    "4.2e-6 kg m^2",
    { "kg m^2": unit(1), "g cm^2": unit(1, 1e7), "g mm^2": unit(1, 1e9) },
    ["g cm^2"],
  ),
  speedConstant: kind("a motor speed constant", "1950 rpm/V", { "rpm/V": unit(RPM), "rad/s/V": unit(1) }, ["rpm/V"]),
  resistance: kind("a resistance", "75 mohm", { ohm: unit(1), mohm: unit(1, 1e3) }),
  current: kind("a current", "0.8 A", { A: unit(1), mA: unit(1, 1e3) }),
  voltage: kind("a voltage", "3.7 V", { V: unit(1), mV: unit(1, 1e3) }),
  charge: kind("a pack capacity", "1300 mAh", { mAh: unit(36, 10), Ah: unit(3600), C: unit(1) }, ["mAh"]),
  temperature: kind("a temperature", "-5 degC", { degC: unit(1, 1, 273.15), K: unit(1) }, ["degC"]),
  level: kind("a gain in decibels", "6 dB", { dB: unit(1) }),
  pGain: kind("a P gain", "30 %/(100 deg/s)", { "%/(100 deg/s)": unit(P_UNIT) }),
  iGain: kind("an I gain", "40 %/(100 deg)", { "%/(100 deg)": unit(I_UNIT) }),
  dGain: kind("a D gain", "4 %/(1000 deg/s^2)", { "%/(1000 deg/s^2)": unit(D_UNIT) }),
});

export type Kind = keyof typeof KINDS;

export const KIND_NAMES: readonly Kind[] = Object.freeze(Object.keys(KINDS) as Kind[]);

/** A written value read: its SI number, or one sentence saying what is wrong with it. */
export type Reading<T> = { readonly value: T } | { readonly fault: string };

const NUMBER = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(.*)$/i;
const LONGEST = 60; // characters of a quantity

/** SI value of a written quantity of the kind; `preferred` is the unit a hint offers. */
export function readQuantity(
  written: unknown,
  wanted: Kind,
  preferred = unitOf(KINDS[wanted].example),
): Reading<number> {
  const hint = (figure: string): string => `expected ${KINDS[wanted].title} (try "${figure} ${preferred}")`;
  const [, figure = "1"] = NUMBER.exec(KINDS[wanted].example) ?? [];
  if (typeof written === "number") return { fault: `${written} has no unit, ${hint(String(written))}` };
  if (typeof written !== "string") return { fault: `${nameOf(written)} is no quantity, ${hint(figure)}` };
  if (written.length > LONGEST) return { fault: `too long for a quantity, ${hint(figure)}` };
  const [, number, rest] = NUMBER.exec(written.trim()) ?? [];
  if (number === undefined || rest === undefined) return { fault: `"${written}" is no quantity, ${hint(figure)}` };
  const name = tidy(rest);
  if (name === "") return { fault: `${number} has no unit, ${hint(number)}` };
  const found = KINDS[wanted].units[name];
  if (found === undefined || !Object.hasOwn(KINDS[wanted].units, name))
    return { fault: `${wrongUnit(written, name)}, ${hint(number)}` };
  const value = (Number(number) * found.times) / found.over + found.plus;
  return Number.isFinite(value) ? { value } : { fault: `${number} is no finite number, ${hint(figure)}` };
}

/** The kind a unit belongs to, or null where no kind knows it. */
export function kindOfUnit(name: string): Kind | null {
  return KIND_NAMES.find((candidate) => Object.hasOwn(KINDS[candidate].units, name)) ?? null;
}

/** An SI number in a unit of its kind: the given one, or the largest shown unit in which it is at least 1. */
export function say(value: number, of: Kind, inUnit?: string): string {
  const { units, shown } = KINDS[of];
  const fits = (name: string): boolean => Math.abs(written(value, units[name])) >= 0.99999;
  const name = inUnit ?? (value === 0 ? shown[0] : (shown.find(fits) ?? shown.at(-1))) ?? "";
  return `${figures(written(value, units[name]))} ${name}`;
}

/** An SI number as written in a unit of its kind, as a number. */
export const inUnitOf = (value: number, of: Kind, name: string): number => written(value, KINDS[of].units[name]);

/** A number for people: four significant figures, no trailing zeros. */
export const figures = (value: number): string => String(Number(value.toPrecision(4)) + 0);

const written = (value: number, by: Unit = unit(1)): number => ((value - by.plus) * by.over) / by.times;

const unitOf = (quantity: string): string => NUMBER.exec(quantity)?.[2] ?? "";

/** Degree and micro signs, squares and spare spaces brought to the one spelling above. */
function tidy(name: string): string {
  const plain = name
    .replace(/\u00b0\s*C\b/, "degC")
    .replace(/\u00b0/g, "deg")
    .replace(/\u00b2/g, "^2")
    .replace(/[\u00b5\u03bc]/g, "u")
    .replace(/[\u03a9\u2126]/g, "ohm")
    .replace(/[\u00b7*]/g, " ");
  return plain
    .replace(/\s+/g, " ")
    .replace(/\s*([/()^])\s*/g, "$1")
    .trim();
}

function wrongUnit(text: string, name: string): string {
  const other = kindOfUnit(name);
  return other === null ? `"${text}" has a unit nobody here knows` : `${text.trim()} is ${KINDS[other].title}`;
}

function nameOf(value: unknown): string {
  if (value === null) return "an empty value";
  if (Array.isArray(value)) return "a list";
  return typeof value === "object" ? "a group of keys" : `"${String(value)}"`;
}
