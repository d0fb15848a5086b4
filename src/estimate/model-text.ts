// A model file as text, from answers: every number with its spread and where it comes from.
import { figures, inUnitOf, type Kind } from "../base/units.js";
import type { Answers } from "./answers.js";
import { COMMON, type Estimate } from "./estimate.js";
import { frameLines } from "./frame-text.js";
import { type Benched, type Numbers, numbersOf } from "./numbers.js";
import { PROPELLER_ROWS, type PropellerRow } from "./propeller-rows.js";
import { quoted, textOf, withSpread } from "./written.js";

const HEAD = `# Written from what its builder knows. Beside every other number: how far it may be off (about 95 of 100 such craft lie
# within ±), and where it comes from. Where you measure one, write it here with its own ±, or without one if it is exact.`;

/** The model of these answers; `benched` stands in place of estimates. */
export function modelText(
  answers: Answers,
  benched: Benched = {},
  rows: readonly PropellerRow[] = PROPELLER_ROWS,
): string {
  const numbers = numbersOf(answers, benched, rows);
  return [
    HEAD,
    "format: gainscape.airframe/1",
    `name: ${quoted(answers.name)}`,
    `version: ${quoted(answers.version ?? "r1")}`,
    `title: ${quoted(answers.title ?? titleOf(answers))}`,
    "",
    ...frameLines(answers, numbers),
    "",
    ...propellerLines(answers, numbers),
    "",
    ...motorLines(numbers),
    "",
    ...packLines(answers, numbers),
    "",
    ...sensingLines(answers),
    "",
    ...controllerLines(answers, numbers),
    "",
    ...washLines(),
    "",
  ].join("\n");
}

function titleOf({ layout, distances, propeller, ducts }: Answers): string {
  const [kind = ""] = layout.split("-");
  const craft = `${figures(inUnitOf(propeller.diameter, "length", "in"))}-inch ${kind}${ducts === "yes" ? " with ducts" : ""}`;
  return `${craft}, ${distances.map((one) => textOf(one, "length", "mm")).join(" by ")} between motors`;
}

/** One estimated line. */
const line = (key: string, estimate: Estimate, kind?: Kind, unit?: string): string =>
  `  ${key}: ${withSpread(estimate, kind, unit)} # ${estimate.source}`;

function propellerLines({ propeller }: Answers, numbers: Numbers): string[] {
  const pitch = textOf(propeller.pitch, "length", "in");
  return [
    `propeller: # ${textOf(propeller.diameter, "length", "in")} by a pitch of ${pitch}, as printed on it`,
    `  diameter: ${textOf(propeller.diameter, "length", "in")}`,
    `  blades: ${propeller.blades}`,
    line("ct", numbers.ct),
    line("cp", numbers.cp),
    line("zero_thrust_advance", numbers.zeroThrustAdvance),
    line("inertia", numbers.propellerInertia, "inertia", "g cm^2"),
  ];
}

const motorLines = ({ kv, resistance, noLoadCurrent, bellInertia }: Numbers): string[] => [
  "motor:",
  `  kv: ${figures(kv.value)} rpm/V ± ${percent(kv.spread)} # ${kv.source}`,
  line("resistance", resistance, "resistance", "mohm"),
  line("no_load_current", noLoadCurrent, "current", "A"),
  line("bell_inertia", bellInertia, "inertia", "g cm^2"),
];

const percent = (share: number): string => `${Math.ceil(100 * share - 1e-9)} %`;

const packLines = ({ pack }: Answers, { packResistance }: Numbers): string[] => [
  "pack:",
  `  cells: ${pack.cells}`,
  `  capacity: ${textOf(pack.capacity, "charge", "mAh")}`,
  line("resistance", packResistance, "resistance", "mohm"),
];

function sensingLines({ gyro_low_pass: cutoff, propeller }: Answers): string[] {
  return [
    "sensing:",
    `  noise: 0.01 deg/s/sqrt(Hz) ± 50 % # common for a small gyro, no source`,
    `  low_pass: ${lowPass(cutoff)}`,
    `  vibration: # a propeller balanced by hand, then its blades passing; ${COMMON}`,
    "    - {harmonic: 1, at_hover: 0.8 deg/s ± 80 %}",
    `    - {harmonic: ${propeller.blades}, at_hover: 0.45 deg/s ± 80 %}`,
  ];
}

const lowPass = (cutoff: number | null): string =>
  cutoff === null
    ? "[] # none, as answered"
    : `[{order: 2, cutoff: ${textOf(cutoff, "frequency", "Hz")}}] # the cutoff as set; order 2 is common, 1 is for a single pole`;

function controllerLines(answers: Answers, { latency }: Numbers): string[] {
  const { one_unit: unit } = answers;
  return [
    "controller:",
    `  rate: ${textOf(answers.loop_rate, "frequency", "kHz")}`,
    line("latency", latency, "duration", "ms"),
    `  idle: 6 % # ${COMMON}`,
    `  rate_derivative_filter: ${lowPass(answers.derivative_low_pass)}`,
    `  integral_limit: 30 % # ${COMMON}`,
    `  gains: # I of roll and pitch, and yaw; P and D come from the sweep. ${COMMON}`,
    "    roll: {i: 25 %/(100 deg)}",
    "    pitch: {i: 25 %/(100 deg)}",
    "    yaw: {p: 30 %/(100 deg/s), i: 30 %/(100 deg)}",
    ...(unit === undefined
      ? []
      : [
          "  one_unit: # what 1 of the controller's own P and D is worth, as answered",
          `    p: ${textOf(unit.p, "pGain", "%/(100 deg/s)")}`,
          `    d: ${textOf(unit.d, "dGain", "%/(1000 deg/s^2)")}`,
        ]),
  ];
}

const washLines = (): string[] => [
  "wash: # our estimates, to calibrate in flight",
  "  rms: 16 % ± 6 %",
  "  loss: 15 % ± 7 %",
  "  revolutions: 20 to 50 # as measured (Stack, Caradonna and Savas 2004)",
  "  correlation: 30 % ± 20 %",
];
