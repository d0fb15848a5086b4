// A new version of a model from a fit: the text as it is, with numbers and spreads replaced, a comment of where they come from
// beside each, the correlations of its numbers and the flights that are in it.

import type { Airframe } from "../airframe/airframe.js";
import { correlationPairs } from "../airframe/correlation-pairs.js";
import { LOOP_GAIN } from "../airframe/drawn.js";
import { parseAirframe } from "../airframe/resolve.js";
import { at } from "../base/at.js";
import { canonicalJson } from "../base/canonical.js";
import { fileProblem, InputError, printable } from "../base/problem.js";
import type { PlacedSpread } from "../base/spreads-in.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../base/units.js";
import { readYaml } from "../files/yaml.js";
import { type Edit, editedYaml, scalarAt } from "../files/yaml-edit.js";
import type { Fitted } from "../fit/fitted.js";
import type { FittedUnit } from "../fit/format.js";
import { fittedSpread, writtenSpread } from "../fit/written.js";
import type { WithDocument } from "./read.js";

export interface FlightInModel {
  readonly title: string;
  readonly digest: string;
  readonly log: string | null;
}

export interface FittedText {
  readonly text: string;
  readonly model: WithDocument<Airframe>;
}

/** `file` names the model in messages and is where the text will stand. InputError where its text cannot be changed so. */
export function fittedModel(
  file: string,
  text: string,
  version: string,
  fit: Pick<Fitted, "unknowns" | "scores" | "correlations">,
  flights: readonly FlightInModel[],
  units: readonly FittedUnit[],
): FittedText {
  const { spreads } = fit.unknowns;
  const moved = spreads.flatMap((spread, k): Edit[] => {
    if (spread.path.length === 0 || at(fit.scores, k).deviation === 1) return [];
    const before = scalarAt(text, spread.path);
    const after = before === null ? null : writtenSpread(before, spread, fittedSpread(spread, at(fit.scores, k)));
    if (before === null || after === null) throw cannot(file, spread);
    return [{ path: spread.path, text: after, note: `fitted, was ${before}` }];
  });
  const edited = editedYaml(text, [{ path: ["version"], text: plainOrQuoted(version), note: null }, ...moved]);
  if (edited === null) throw new InputError([fileProblem(file, "its version is not written as a plain value")]);
  const whole = [withUnits(withoutBlocks(edited).trimEnd(), units), ...blocks(fit, flights)].join("\n");
  const document = readYaml(file, `${whole}\n`);
  return { text: `${whole}\n`, model: { value: parseAirframe(document), document } };
}

/** A name that YAML would read as a number or a word of its own stands in quotes. */
const plainOrQuoted = (name: string): string => (/^[A-Za-z][\w-]*[0-9]$/.test(name) ? name : canonicalJson(name));

const cannot = (file: string, { key }: PlacedSpread): InputError =>
  new InputError([
    fileProblem(file, `${key} is not written where it stands (an alias?), so a fit cannot replace it; write it out`),
  ]);

/** Blocks of an earlier fit at the end of the file, which this one writes anew. */
const BLOCKS = /^(?:# From flights[^\n]*\n)?(?:correlations|flights|loop_gain):[^\n]*\n(?:[ \t#-][^\n]*\n|\n)*/gm;

const withoutBlocks = (text: string): string => `${text}\n`.replace(BLOCKS, "");

function blocks(
  { unknowns, scores, correlations }: Pick<Fitted, "unknowns" | "scores" | "correlations">,
  flights: readonly FlightInModel[],
): string[] {
  const { spreads } = unknowns;
  const keys = spreads.map(({ key }) => (key === LOOP_GAIN ? "loop_gain" : key));
  const gain = spreads.findIndex(({ key }) => key === LOOP_GAIN || key === "loop_gain");
  const pairs = correlationPairs(keys, correlations);
  const quoted = (text: string) => canonicalJson(text);
  return [
    "",
    "# From flights, by gainscape fit: numbers that were fitted go together, so change none of them without its pairs.",
    ...(gain < 0
      ? []
      : [
          `loop_gain: ${gainText(at(spreads, gain), at(scores, gain))} # torque per command beside what the numbers above make of it`,
        ]),
    "flights:",
    ...flights.map(
      ({ title, digest, log }) =>
        `  - {title: ${quoted(printable(title))}, digest: ${quoted(digest)}${log === null ? "" : `, log: ${quoted(log)}`}}`,
    ),
    ...(pairs.length === 0 ? [] : ["correlations:"]),
    ...pairs.map(
      ({ one, other, correlation }) =>
        `  - {one: ${quoted(one)}, other: ${quoted(other)}, correlation: ${correlation}}`,
    ),
  ];
}

function gainText(spread: PlacedSpread, score: Fitted["scores"][number]): string {
  const { nominal, size } = fittedSpread(spread, score);
  return `${Number(nominal.toPrecision(4))} ± ${Number(((100 * size) / nominal).toPrecision(3))} %`;
}

const WORTH = { p: ["%/(100 deg/s)", P_UNIT], i: ["%/(100 deg)", I_UNIT], d: ["%/(1000 deg/s^2)", D_UNIT] } as const;

/** A group that is there already, in lines of its own or between braces. */
const ONE_UNIT = /^([ \t]+)one_unit:[^\n{]*(?:\{[^}\n]*\}[^\n]*\n|\n(?:\1[ \t]+[^\n]*\n)*)/m;

/** One unit of the controller's own numbers, as far as flights tell it; what the model says of it already stays. */
function withUnits(text: string, units: readonly FittedUnit[]): string {
  const of = (gain: FittedUnit["gain"], axes: readonly string[]) =>
    units.find(
      (unit) =>
        unit.gain === gain &&
        unit.set === "own" &&
        unit.value !== null &&
        axes.some((axis) => unit.axes.includes(axis as "roll")),
    );
  const line = (gain: FittedUnit["gain"], unit: FittedUnit | undefined): string[] => {
    if (unit?.value == null) return [];
    const [name, one] = WORTH[gain];
    const { middle, low, high } = unit.value;
    const share = Number(((50 * (high - low)) / middle).toPrecision(2));
    return [`    ${gain}: ${Number((middle / one).toPrecision(4))} ${name} # fitted, ± ${share} %`];
  };
  const [p, i, d] = (["p", "i", "d"] as const).map((gain) => line(gain, of(gain, ["roll", "pitch"])));
  const present = ONE_UNIT.exec(`${text}\n`)?.[0];
  if (present !== undefined) {
    const [worth] = i ?? [];
    return worth === undefined || /\bi:/.test(present) ? text : text.replace(present.trimEnd(), withI(present, worth));
  }
  if (p === undefined || d === undefined || p.length === 0 || d.length === 0) return text;
  const yawOnly = (gain: "p" | "i") => {
    const unit = of(gain, ["yaw"]);
    return unit === undefined || unit.axes.includes("roll") || unit.axes.includes("pitch") ? undefined : unit;
  };
  const yaw = [...line("p", yawOnly("p")), ...line("i", yawOnly("i"))].map((one) => `  ${one}`);
  const own = ["  one_unit: # what 1 of the controller's own numbers is worth", ...p, ...(i ?? []), ...d];
  const withYaw = yaw.length > 0 && yaw[0]?.trimStart().startsWith("p:") ? [...own, "    yaw:", ...yaw] : own;
  return text.replace(/^controller:[^\n]*\n/m, (head) => `${head}${withYaw.join("\n")}\n`);
}

/** The group with one line more, as indented as its others; between braces its value alone. */
function withI(group: string, worth: string): string {
  const whole = group.trimEnd();
  const value = worth.replace(/ #.*$/, "").trim();
  if (/one_unit:[^\n#]*\{/.test(whole)) return whole.replace("}", `, ${value}}`);
  const indent = /\n([ \t]+)/.exec(whole)?.[1] ?? "    ";
  return `${whole}\n${indent}${worth.trim()}`;
}
