// A model's sheet as a reader reads it: rows of titles and values for a terminal or a page.
import type { Sheet, SheetLevel, SheetWarning } from "../sheet/format.js";
import { toThreeDigits, withUnit } from "./numbers.js";
import { unitLabel } from "./units.js";

export type SheetRow = readonly [title: string, value: string];
/** Values in hover, at 70 % and at full throttle; empty: none. */
export type LevelRow = readonly [title: string, hover: string, brisk: string, full: string];

const AUTHORITY = unitLabel("deg/s^2 per %");

/** An inertia as model files spell it: 1.22e-3. */
const exponent = (value: number): string => value.toExponential(2);

function centreWords({ centreOfMassMm: { forward, left, up } }: Sheet): string {
  const side = (value: number, plus: string, minus: string) => {
    const tenths = Math.round(10 * Math.abs(value)) / 10;
    return tenths === 0 ? [] : [`${withUnit(tenths, "mm")} ${value > 0 ? plus : minus}`];
  };
  const parts = [
    ...side(forward, "in front of", "behind"),
    ...side(left, "left of", "right of"),
    ...side(up, "above", "below"),
  ];
  return `${parts.length === 0 ? "in" : parts.join(", ")} the rotors\u2019 middle`;
}

export function bodyRows(sheet: Sheet): SheetRow[] {
  const { xx, yy, zz } = sheet.inertiaKgM2;
  return [
    ["Mass", withUnit(1000 * sheet.massKg, "g")],
    ["Centre of mass", centreWords(sheet)],
    ["Inertia", `roll ${exponent(xx)}, pitch ${exponent(yy)}, yaw ${exponent(zz)} kg m\u00b2`],
    ["Inertia of a rotor", `${exponent(sheet.rotorInertiaKgM2)} kg m\u00b2, propeller and bell`],
    ["Figure of merit", toThreeDigits(sheet.figureOfMerit)],
  ];
}

/** Columns of the level rows. */
export const LEVELS = Object.freeze(["hover", "70\u00a0%", "full throttle"]);

export function levelRows({ hover, at70Percent, fullThrottle: full }: Sheet): LevelRow[] {
  const row = (title: string, of: (level: SheetLevel) => number, last: number | null = null): LevelRow => [
    title,
    toThreeDigits(of(hover)),
    toThreeDigits(of(at70Percent)),
    last === null ? "" : toThreeDigits(last),
  ];
  const authority = (axis: "roll" | "pitch" | "yaw") =>
    row(`Authority of ${axis}, ${AUTHORITY}`, (level) => level.authorityDegPerS2PerPercent[axis]);
  return [
    row("Throttle, %", (level) => level.throttlePercent, 100),
    row("Rotor speed, rpm", (level) => level.rotorSpeedRpm, full.rotorSpeedRpm),
    row("Current in a motor, A", (level) => level.motorCurrentA, full.motorCurrentA),
    row("Current of the pack, A", (level) => level.packCurrentA, full.packCurrentA),
    row("Voltage of the pack, V", (level) => level.packVoltageV, full.packVoltageV),
    ["Thrust to weight", "1", "", toThreeDigits(full.thrustToWeight)],
    ["Speed of the tips, Mach", "", "", full.tipMach.toFixed(2)],
    row("Motor lag, ms", (level) => level.motorLagMs),
    authority("roll"),
    authority("pitch"),
    authority("yaw"),
  ];
}

const capital = (title: string) => title.charAt(0).toUpperCase() + title.slice(1);

/** What each feature of the controller does in hover; no rows where it has fixed gains and filters alone. */
export const controllerRows = ({ controller = [] }: Pick<Sheet, "controller">): SheetRow[] =>
  controller.map(({ title, inHover }): SheetRow => [capital(title), inHover]);

export function delayRows({ delays, delaySumMs }: Sheet): SheetRow[] {
  return [
    ...delays.map(
      ({ title, ms, ofDAlone }): SheetRow => [capital(title), `${withUnit(ms, "ms")}${ofDAlone ? ", D alone" : ""}`],
    ),
    ["Together", `P ${withUnit(delaySumMs.p, "ms")}, D ${withUnit(delaySumMs.d, "ms")}`],
  ];
}

export function disturbanceRows({ noise, wash }: Sheet): SheetRow[] {
  const lines = noise.vibration.map(
    ({ harmonic, amplitudeDegPerS, frequencyHz }): SheetRow => [
      `Vibration, harmonic ${toThreeDigits(harmonic)}`,
      `${withUnit(amplitudeDegPerS, unitLabel("deg/s"))} at ${withUnit(frequencyHz, "Hz")} in hover`,
    ],
  );
  return [
    ["Gyro noise", withUnit(noise.gyroDegPerSPerRootHz, `${unitLabel("deg/s")}/\u221aHz`)],
    ...(lines.length === 0 ? [["Vibration", "none"] as const] : lines),
    [
      "Prop wash, worst descent",
      `${withUnit(wash.rmsPercent, "%")} rms of thrust, ${withUnit(wash.lossPercent, "%")} lost, ${toThreeDigits(wash.burstsPerSecond)} bursts a second, ${withUnit(wash.correlationPercent, "%")} alike`,
    ],
  ];
}

/** What the model knows and what it does not; at most so many keys by name. */
const NAMED = 12;

export function spreadsLine({ spreads }: Sheet): string {
  if (spreads.length === 0) return "Every number is taken as exact: the model gives no spreads.";
  const words = spreads
    .slice(0, NAMED)
    .map(({ key, plusMinusPercent }) =>
      plusMinusPercent === null ? key : `${key} \u00b1\u00a0${withUnit(plusMinusPercent, "%")}`,
    );
  const more = spreads.length > NAMED ? ` and ${spreads.length - NAMED} more` : "";
  return `Taken as uncertain: ${words.join(", ")}${more}; all else as exact. The figures above are those of the numbers as written.`;
}

/** Pairs named, and by how much a correlation may differ before a reader is told. */
const PAIRS = 4;
const SEEN = 0.0005;

/** Which numbers go together; "" where none do. */
export function togetherLine({ together }: Sheet): string {
  if (together === undefined) return "";
  const { pairs, mendedBy } = together;
  const named = pairs
    .slice(0, PAIRS)
    .map(({ one, other, correlation }) => `${one} with ${other} (${toThreeDigits(correlation)})`);
  const more = pairs.length > PAIRS ? `; ${pairs.length - PAIRS} pairs more` : "";
  const mended =
    mendedBy < SEEN
      ? ""
      : ` As declared they cannot all be at once: draws have the nearest that can, by up to ${toThreeDigits(mendedBy)} off.`;
  return `Go together, so that draws are joint, the strongest first (1: always, -1: always opposite): ${named.join(", ")}${more}.${mended}`;
}

/** Above the warnings. */
export function warningsLine(warnings: readonly SheetWarning[]): string {
  if (warnings.length === 0) return "Nothing in the model looks unlikely.";
  return warnings.length === 1
    ? "One thing in the model is possible, but unlikely:"
    : `${warnings.length} things in the model are possible, but unlikely:`;
}

export const warningLine = ({ key, text }: SheetWarning): string => `${key}: ${text}.`;
