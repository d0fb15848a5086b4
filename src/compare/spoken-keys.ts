// Keys and values of a resolved model or sweep as people write them in files: "propeller.diameter: 5.1 in".
import { shortened } from "../base/problem.js";
import { type Kind, say } from "../base/units.js";

interface Spelling {
  readonly kind: Kind;
  readonly unit?: string;
}

const spelt = (kind: Kind, unit?: string): Spelling => (unit === undefined ? { kind } : { kind, unit });

// By key with every index left out and names of scripts and conditions as a star. What is not listed here has no unit.
const SPELLINGS: Readonly<Record<string, Spelling>> = Object.freeze({
  mass: spelt("mass", "g"),
  "centreOfMass[]": spelt("length", "mm"),
  "inertia.xx": spelt("inertia", "g cm^2"),
  "inertia.yy": spelt("inertia", "g cm^2"),
  "inertia.zz": spelt("inertia", "g cm^2"),
  "inertia.xy": spelt("inertia", "g cm^2"),
  "inertia.xz": spelt("inertia", "g cm^2"),
  "inertia.yz": spelt("inertia", "g cm^2"),
  "rotors[].at[]": spelt("length", "mm"),
  "propeller.diameter": spelt("length", "in"),
  "propeller.inertia": spelt("inertia", "g cm^2"),
  "motor.resistance": spelt("resistance", "mohm"),
  "motor.noLoadCurrent": spelt("current", "A"),
  "motor.bellInertia": spelt("inertia", "g cm^2"),
  "pack.capacity": spelt("charge", "mAh"),
  "pack.resistance": spelt("resistance", "mohm"),
  "sensing.noiseDensity": spelt("noiseDensity"),
  "sensing.lowPass[].cutoff": spelt("frequency", "Hz"),
  "sensing.vibration[].atHover": spelt("rate", "deg/s"),
  "controller.rate": spelt("frequency"),
  "controller.latency": spelt("duration", "ms"),
  "controller.idle": spelt("share"),
  "controller.derivativeFilter[].cutoff": spelt("frequency", "Hz"),
  "controller.integralLimit": spelt("share"),
  "controller.roll.p": spelt("pGain"),
  "controller.roll.i": spelt("iGain"),
  "controller.roll.d": spelt("dGain"),
  "controller.pitch.p": spelt("pGain"),
  "controller.pitch.i": spelt("iGain"),
  "controller.pitch.d": spelt("dGain"),
  "controller.yaw.p": spelt("pGain"),
  "controller.yaw.i": spelt("iGain"),
  "controller.scale.p": spelt("pGain"),
  "controller.scale.d": spelt("dGain"),
  "wash.rms": spelt("share"),
  "wash.loss": spelt("share"),
  "wash.correlation": spelt("share"),
  "grid.p[]": spelt("pGain"),
  "grid.d[]": spelt("dGain"),
  "pinned.roll.p": spelt("pGain"),
  "pinned.roll.d": spelt("dGain"),
  "pinned.pitch.p": spelt("pGain"),
  "pinned.pitch.d": spelt("dGain"),
  "conditions.*.charge": spelt("share"),
  "conditions.*.payload.mass": spelt("mass", "g"),
  "conditions.*.payload.at[]": spelt("length", "mm"),
  "conditions.*.altitude": spelt("length", "m"),
  "conditions.*.temperature": spelt("temperature"),
  "scripts.*.throttle[]": spelt("share"),
  "scripts.*.rates[]": spelt("rate", "deg/s"),
  "scripts.*.duration": spelt("duration", "s"),
  "scripts.*.window.from": spelt("duration", "s"),
  "scripts.*.window.to": spelt("duration", "s"),
  "scripts.*.tail.from": spelt("duration", "s"),
  "scripts.*.tail.to": spelt("duration", "s"),
  "margins.gain": spelt("level"),
  "margins.phase": spelt("angle"),
  boundaryTolerance: spelt("share"),
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
export function spokenKey(key: string): string {
  const [from, to] = FILE_WORDS.find(([resolved]) => key.startsWith(resolved)) ?? ["", ""];
  return `${to}${key.slice(from.length)}`.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/** The value as a file writes it: "5.1 in"; null for an absent one. */
export function spokenValue(key: string, value: unknown): string | null {
  if (value === undefined) return null;
  if (typeof value !== "number") return typeof value === "string" ? shortened(value) : worded(value);
  if (key === "motor.constant") return say(1 / value, "speedConstant", "rpm/V"); // kept as volts per speed
  if (/^rotors\[\d+\]\.spin$/.test(key)) return value > 0 ? "ccw" : "cw";
  const listed = key.replace(/\[\d+\]/g, "[]").replace(/^(scripts|conditions)\.[^.]*/, "$1.*");
  const found = Object.hasOwn(SPELLINGS, listed) ? SPELLINGS[listed] : undefined; // "toString" is nobody's
  return found === undefined ? String(Number(value.toPrecision(6))) : say(value, found.kind, found.unit);
}

function worded(value: unknown): string {
  if (value === null) return "none";
  return typeof value === "object" && !Array.isArray(value) ? "present" : shortened(JSON.stringify(value));
}
