// The outcomes as Markdown: every check in full, and what is worst of each kind in a few lines.
import { ASKED, type OctaveQuestion, TOLERANCES } from "../octave/tolerances.js";
import type { Kind, Outcome } from "./check.js";

export interface GroupOutcomes {
  readonly group: string;
  readonly outcomes: readonly Outcome[];
}

/** Below this an error is rounding, which differs from machine to machine. */
const ROUNDING = 1e-9;

const row = (cells: readonly string[]): string => `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
const rule = (columns: number): string => row(Array.from({ length: columns }, () => "---"));

const digits = (value: number, count: number): string => String(Number(value.toPrecision(count)));
const percent = (share: number): string => (share < ROUNDING ? "0" : `${digits(100 * share, 2)} %`);
const withUnit = (value: string, unit: string): string => (unit === "" ? value : `${value} ${unit}`);

function errorOf({ check, error, share }: Outcome): string {
  if (share < ROUNDING) return "0";
  return "share" in check.within ? percent(error) : withUnit(digits(error, 2), check.unit);
}

function toleranceOf({ check, tolerance }: Outcome): string {
  return "share" in check.within ? `${digits(100 * tolerance, 3)} %` : withUnit(digits(tolerance, 3), check.unit);
}

function obtainedOf({ check, obtained, share }: Outcome): string {
  if (share < ROUNDING) return digits(check.expected, 7);
  return digits(obtained, check.expected === 0 ? 2 : 7);
}

const checkRow = (outcome: Outcome): string => {
  const { source, status, expected, unit } = outcome.check;
  const quantity = outcome.check.quantity + (outcome.places === null ? "" : ` (${outcome.places} places)`);
  const value = withUnit(digits(expected, 7), unit);
  return row([quantity, source, status, value, obtainedOf(outcome), errorOf(outcome), toleranceOf(outcome)]);
};

/** The full table, group by group. */
export function fullTable(groups: readonly GroupOutcomes[]): string {
  const head = ["quantity", "source", "status", "expected", "obtained", "error", "tolerance"];
  const rows = groups.flatMap(({ group, outcomes }) => [
    row([`**${group}**`, ...Array.from({ length: head.length - 1 }, () => "")]),
    ...outcomes.map(checkRow),
  ]);
  return [row(head), rule(head.length), ...rows].join("\n");
}

/** What Octave computes, and the largest error of each. */
export function octaveTable(seen: Readonly<Record<OctaveQuestion, number>>): string {
  const rows = (Object.keys(ASKED) as OctaveQuestion[]).map((key) => {
    const { quantity, by, unit, scale } = ASKED[key];
    return row([quantity, by, digits(scale * seen[key], 1), `${digits(scale * TOLERANCES[key], 3)}${unit}`]);
  });
  return [row(["quantity", "by", "largest error seen", "tolerance"]), rule(4), ...rows].join("\n");
}

/** The table without what was seen, which rounding moves from machine to machine. */
export const unseen = (table: string): string => table.replace(/ \| [^|]*( \| [^|]* \|)$/gm, "$1");

const KINDS: readonly (readonly [kind: Kind, title: string])[] = [
  ["figure", "one right answer: closed forms, textbooks, tables, simulations"],
  ["statistic", "random records of finite length"],
  ["approximation", "the source itself approximates: describing functions"],
  ["coverage", "spreads of estimates: how many of the propellers that were left out lie within them"],
  ["estimate", "our estimate next to what others measured: the size of prop wash, a real craft's axes"],
];

const fromMemory = ({ check }: Outcome): boolean => check.status.includes("memory");

/** What is worst of each kind, and how many checks rest on memory. */
export function summaryTable(groups: readonly GroupOutcomes[]): string {
  const all = groups.flatMap(({ outcomes }) => outcomes);
  const rows = KINDS.map(([kind, title]) => {
    const these = all.filter(({ check }) => (check.kind ?? "figure") === kind);
    const worst = these.reduce((most, one) => (one.share > most.share ? one : most));
    const memory = these.filter(fromMemory).length;
    return row([title, String(these.length), String(memory), percent(worst.share), worst.check.quantity]);
  });
  const boundary = (groups[0]?.outcomes ?? []).filter(({ check }) => check.status === "theory against trials");
  const ends = boundary.reduce((sum, { places }) => sum + (places ?? 0), 0);
  const furthest = boundary.reduce((most, one) => (one.share > most.share ? one : most));
  return [
    `${all.length} checks, each with its source; ${all.filter(fromMemory).length} of the sources are cited from memory, their numbers`,
    "recomputed. On every shipped model, at every D, throttle and pack state, wherever it lies in the swept range, the simulated",
    `boundary of a small nudge lies within ${percent(furthest.share)} of theory's (${ends} places compared).`,
    "",
    row(["what was checked", "checks", "from memory", "worst error", "where"]),
    rule(5),
    ...rows,
  ].join("\n");
}
