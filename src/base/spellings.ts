// Units that people write but that are not accepted as they stand: other names of a unit of ours, and units of other systems. They
// serve hints alone, and a hint converts without rounding. Factors: NIST SP 811, appendix B, exact by definition.
import { KINDS, type Kind } from "./units.js";

/** A written number times `times / over` is the same quantity in `unit`. */
export interface Spelling {
  readonly unit: string;
  readonly times: bigint;
  readonly over: bigint;
  /** What a unit of another system is called, in the plural; null: another name of `unit`. */
  readonly called: string | null;
}

type Row = readonly [names: string, unit: string, called?: string, times?: bigint, over?: bigint];

const ROWS: Readonly<Partial<Record<Kind, readonly Row[]>>> = {
  mass: [
    ["gram|grams|gramme|grammes", "g"],
    ["kilogram|kilograms", "kg"],
    ["oz|ounce|ounces", "g", "ounces", 28_349_523_125n, 1_000_000_000n],
    ["lb|lbs|pound|pounds", "g", "pounds", 45_359_237n, 100_000n],
  ],
  length: [
    ["\"|\u2033|\u201d|''|inch|inches", "in"],
    ["'|\u2032|\u2019|foot|feet", "ft"],
    ["millimetre|millimetres|millimeter|millimeters", "mm"],
    ["centimetre|centimetres|centimeter|centimeters", "cm"],
    ["metre|metres|meter|meters", "m"],
  ],
  share: [["percent|per cent|pct", "%"]],
  duration: [
    ["sec|secs|second|seconds", "s"],
    ["msec|msecs|millisecond|milliseconds", "ms"],
    ["usec|usecs|microsecond|microseconds", "us"],
  ],
  frequency: [
    ["hertz", "Hz"],
    ["kilohertz", "kHz"],
  ],
  angle: [
    ["degree|degrees", "deg"],
    ["radian|radians", "rad"],
  ],
  rate: [
    ["dps|deg/sec|degree/s|degrees/s|degrees/sec|degrees/second|deg per second|degrees per second", "deg/s"],
    ["rad/sec|radians/s|radians per second", "rad/s"],
    ["rpm", "deg/s", "revolutions per minute", 6n],
  ],
  noiseDensity: [
    ["dps/sqrt(hz)|dps/rthz|deg/s/rthz", "deg/s/sqrt(Hz)"],
    ["mdps/sqrt(hz)|mdps/rthz", "deg/s/sqrt(Hz)", "thousandths of deg/s/sqrt(Hz)", 1n, 1000n],
  ],
  speed: [
    ["m/sec|metres per second|meters per second", "m/s"],
    ["kph|kmh|kmph|km/hr", "km/h"],
    ["mph", "km/h", "miles per hour", 1_609_344n, 1_000_000n],
    ["kn|kt|kts|knot|knots", "km/h", "knots", 1852n, 1000n],
    ["ft/s|ft/sec", "m/s", "feet per second", 3048n, 10_000n],
  ],
  inertia: [
    ["kgm^2", "kg m^2"],
    ["gcm^2", "g cm^2"],
    ["gmm^2", "g mm^2"],
    ["kg cm^2|kgcm^2", "g cm^2", "kg cm^2", 1000n],
    ["kg mm^2|kgmm^2", "g mm^2", "kg mm^2", 1000n],
    ["g m^2|gm^2", "kg m^2", "g m^2", 1n, 1000n],
    ["oz in^2", "g cm^2", "ounces by square inches", 28_349_523_125n * 64_516n, 10_000_000_000_000n],
    ["lb in^2", "g cm^2", "pounds by square inches", 45_359_237n * 64_516n, 1_000_000_000n],
  ],
  speedConstant: [["kv|rpm/volt|rpm per volt", "rpm/V"]],
  resistance: [
    ["ohms", "ohm"],
    ["mohms|milliohm|milliohms", "mohm"],
  ],
  current: [
    ["amp|amps|ampere|amperes", "A"],
    ["milliamp|milliamps", "mA"],
  ],
  voltage: [
    ["volt|volts", "V"],
    ["millivolt|millivolts", "mV"],
  ],
  temperature: [["celsius", "degC"]],
  level: [["decibel|decibels", "dB"]],
};

/** The unit of the kind that a name stands for though it is not spelt like it, or null where that is not certain. */
export function spellingOf(name: string, kind: Kind): Spelling | null {
  // a capital M is mega, not milli
  if (name.startsWith("M")) return null;
  const small = name.toLowerCase();
  const [, unit, called = null, times = 1n, over = 1n] =
    ROWS[kind]?.find(([names]) => names.split("|").includes(small)) ?? [];
  if (unit !== undefined) return { unit, times, over, called };
  const [same, ...others] = Object.keys(KINDS[kind].units).filter((one) => one.toLowerCase() === small);
  // one letter in the wrong case may be another unit: C is a coulomb, c a pack's rate
  return same === undefined || others.length > 0 || (kind === "charge" && small.length === 1)
    ? null
    : { unit: same, times: 1n, over: 1n, called: null };
}
