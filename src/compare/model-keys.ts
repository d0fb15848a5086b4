// Keys and values of a resolved model or sweep as files write them: "propeller.diameter: 5.1 in".
import { airframeSchema } from "../airframe/schema.js";
import { canonicalJson } from "../base/canonical.js";
import { type KeyUnit, keyUnitsOf } from "../base/key-units.js";
import { shortened } from "../base/problem.js";
import { quantityText } from "../base/units.js";
import { sweepSchema } from "../sweep/schema.js";
import { scriptSchema } from "../sweep/script-schema.js";

// What is resolved from several keys of a file, or held in another form there, by key with every index left out.
const RESOLVED_UNITS: readonly (readonly [string, KeyUnit])[] = Object.freeze([
  ["mass", { kind: "mass", unit: "g" }],
  ["centre_of_mass[]", { kind: "length", unit: "mm" }],
  ...["xx", "yy", "zz", "xy", "xz", "yz"].map(
    (entry) => [`inertia.${entry}`, { kind: "inertia", unit: "g cm^2" }] as const,
  ),
  ["grid.p[]", { kind: "pGain" }],
  ["grid.d[]", { kind: "dGain" }],
  ["scripts.*.throttle[]", { kind: "share" }],
]);

const KEY_UNITS: ReadonlyMap<string, KeyUnit> = new Map([
  ...keyUnitsOf(airframeSchema),
  ...keyUnitsOf(sweepSchema),
  ...keyUnitsOf(scriptSchema, "scripts.*"),
  ...[...keyUnitsOf(sweepSchema)].flatMap(([key, unit]): [string, KeyUnit][] => {
    const named = key.replace(/^(scripts|conditions)\[\]/, "$1.*");
    return named === key ? [] : [[named, unit]];
  }),
  ...RESOLVED_UNITS,
]);

// Where the file's own word differs from the resolved one by more than its spelling, or where it has none.
const FILE_WORDS: readonly (readonly [resolved: string, file: string])[] = Object.freeze([
  ["motor.constant", "motor.kv"],
  ["propeller.cpSlope", "propeller: slope of cp over j (from propeller.table)"],
  ["sensing.noiseDensity", "sensing.noise"],
  ["controller.derivativeFilter", "controller.rateDerivativeFilter"],
  ["controller.derivativeNotch", "controller.rateDerivativeNotch"],
  ["controller.derivativeTrackingNotch", "controller.rateDerivativeTrackingNotch"],
  ["controller.scale", "controller.oneUnit"],
  ["controller.roll", "controller.gains.roll"],
  ["controller.pitch", "controller.gains.pitch"],
  ["controller.yaw", "controller.gains.yaw"],
]);

/** The unit that files use for a key as they spell it, "frame.parts[6].mass"; null for a number without one. */
export const unitInFiles = (key: string): KeyUnit | null => KEY_UNITS.get(key.replace(/\[\d+\]/g, "[]")) ?? null;

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
  const listed = modelKey(key.replace(/\[\d+\]/g, "[]").replace(/^(scripts|conditions)\.[^.]*/, "$1.*"));
  const found = KEY_UNITS.get(listed);
  return found === undefined ? String(Number(value.toPrecision(6))) : quantityText(value, found.kind, found.unit);
}

function valueText(value: unknown): string {
  if (value === null) return "none";
  return typeof value === "object" && !Array.isArray(value) ? "present" : shortened(canonicalJson(value));
}
