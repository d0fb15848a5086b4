// Keys and values of a resolved model or sweep as files write them: "propeller.diameter: 5.1 in".
import { canonicalJson } from "../base/canonical.js";
import { shortened } from "../base/problem.js";
import { type Kind, quantityText } from "../base/units.js";

interface KeyUnit {
  readonly kind: Kind;
  readonly unit?: string;
}

const keyUnit = (kind: Kind, unit?: string): KeyUnit => (unit === undefined ? { kind } : { kind, unit });

// By key with every index left out and names of scripts and conditions as a star. What is not listed here has no unit.
const KEY_UNITS: Readonly<Record<string, KeyUnit>> = Object.freeze({
  mass: keyUnit("mass", "g"),
  "centreOfMass[]": keyUnit("length", "mm"),
  "inertia.xx": keyUnit("inertia", "g cm^2"),
  "inertia.yy": keyUnit("inertia", "g cm^2"),
  "inertia.zz": keyUnit("inertia", "g cm^2"),
  "inertia.xy": keyUnit("inertia", "g cm^2"),
  "inertia.xz": keyUnit("inertia", "g cm^2"),
  "inertia.yz": keyUnit("inertia", "g cm^2"),
  "rotors[].at[]": keyUnit("length", "mm"),
  "propeller.diameter": keyUnit("length", "in"),
  "propeller.inertia": keyUnit("inertia", "g cm^2"),
  "motor.resistance": keyUnit("resistance", "mohm"),
  "motor.noLoadCurrent": keyUnit("current", "A"),
  "motor.bellInertia": keyUnit("inertia", "g cm^2"),
  "pack.capacity": keyUnit("charge", "mAh"),
  "pack.resistance": keyUnit("resistance", "mohm"),
  "sensing.noiseDensity": keyUnit("noiseDensity"),
  "sensing.lowPass[].cutoff": keyUnit("frequency", "Hz"),
  "sensing.vibration[].atHover": keyUnit("rate", "deg/s"),
  "controller.rate": keyUnit("frequency"),
  "controller.latency": keyUnit("duration", "ms"),
  "controller.idle": keyUnit("share"),
  "controller.derivativeFilter[].cutoff": keyUnit("frequency", "Hz"),
  "controller.integralLimit": keyUnit("share"),
  "controller.roll.p": keyUnit("pGain"),
  "controller.roll.i": keyUnit("iGain"),
  "controller.roll.d": keyUnit("dGain"),
  "controller.pitch.p": keyUnit("pGain"),
  "controller.pitch.i": keyUnit("iGain"),
  "controller.pitch.d": keyUnit("dGain"),
  "controller.yaw.p": keyUnit("pGain"),
  "controller.yaw.i": keyUnit("iGain"),
  "controller.scale.p": keyUnit("pGain"),
  "controller.scale.d": keyUnit("dGain"),
  "wash.rms": keyUnit("share"),
  "wash.loss": keyUnit("share"),
  "wash.correlation": keyUnit("share"),
  "grid.p[]": keyUnit("pGain"),
  "grid.d[]": keyUnit("dGain"),
  "pinned.roll.p": keyUnit("pGain"),
  "pinned.roll.d": keyUnit("dGain"),
  "pinned.pitch.p": keyUnit("pGain"),
  "pinned.pitch.d": keyUnit("dGain"),
  "conditions.*.charge": keyUnit("share"),
  "conditions.*.payload.mass": keyUnit("mass", "g"),
  "conditions.*.payload.at[]": keyUnit("length", "mm"),
  "conditions.*.altitude": keyUnit("length", "m"),
  "conditions.*.temperature": keyUnit("temperature"),
  "scripts.*.throttle[]": keyUnit("share"),
  "scripts.*.rates[]": keyUnit("rate", "deg/s"),
  "scripts.*.duration": keyUnit("duration", "s"),
  "scripts.*.window.from": keyUnit("duration", "s"),
  "scripts.*.window.to": keyUnit("duration", "s"),
  "scripts.*.tail.from": keyUnit("duration", "s"),
  "scripts.*.tail.to": keyUnit("duration", "s"),
  "margins.gain": keyUnit("level"),
  "margins.phase": keyUnit("angle"),
  boundaryTolerance: keyUnit("share"),
});

// Where the file's own word differs from the resolved one by more than its spelling, or where it has none.
const FILE_WORDS: readonly (readonly [resolved: string, file: string])[] = Object.freeze([
  ["motor.constant", "motor.kv"],
  ["propeller.cpSlope", "propeller: slope of cp over j (from propeller.table)"],
  ["sensing.noiseDensity", "sensing.noise"],
  ["controller.derivativeFilter", "controller.rateDerivativeFilter"],
  ["controller.scale", "controller.oneUnit"],
  ["controller.roll", "controller.gains.roll"],
  ["controller.pitch", "controller.gains.pitch"],
  ["controller.yaw", "controller.gains.yaw"],
]);

/** The key as a file spells it: "controller.rate_derivative_filter[0].cutoff". */
export function modelKey(key: string): string {
  const [from, to] = FILE_WORDS.find(([resolved]) => key.startsWith(resolved)) ?? ["", ""];
  return `${to}${key.slice(from.length)}`.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/** The value as a file writes it: "5.1 in"; null for an absent one. */
export function valueInFileUnits(key: string, value: unknown): string | null {
  if (value === undefined) return null;
  if (typeof value !== "number") return typeof value === "string" ? shortened(value) : valueText(value);
  if (key === "motor.constant") return quantityText(1 / value, "speedConstant", "rpm/V"); // stored as volts per speed
  if (/^rotors\[\d+\]\.spin$/.test(key)) return value > 0 ? "ccw" : "cw";
  const listed = key.replace(/\[\d+\]/g, "[]").replace(/^(scripts|conditions)\.[^.]*/, "$1.*");
  const found = Object.hasOwn(KEY_UNITS, listed) ? KEY_UNITS[listed] : undefined; // not an inherited key, as "toString"
  return found === undefined ? String(Number(value.toPrecision(6))) : quantityText(value, found.kind, found.unit);
}

function valueText(value: unknown): string {
  if (value === null) return "none";
  return typeof value === "object" && !Array.isArray(value) ? "present" : shortened(canonicalJson(value));
}
