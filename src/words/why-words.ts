// What moved a measure, change by change, in one line: "−53 %: −59 % more cells (pack.cells), +4 % a stiffer pack, …".
import type { Axis, Drift, GateResult, MapGateResult } from "../compare/format.js";
import type { AxisWhy, Why, WhyChange, WhyParts } from "../compare/why-format.js";
import { endText } from "../map/gain-text.js";
import { AXES, AXIS_TITLES } from "./axes.js";
import { isOfStrip } from "./gate-words.js";
import { changeWords } from "./why-effects.js";

type Unit = "%" | "dB" | "\u00b0";
const spaced = (unit: Unit): string => (unit === "\u00b0" ? unit : `\u00a0${unit}`);

/** Most changes named one by one in a line. */
const NAMED = 3;
const MINUS = "\u2212";

/** Digits after the point: those of the whole, so that the parts can be added up. */
const decimalsOf = ({ whole }: WhyParts): number => (Math.abs(whole) >= 10 ? 0 : 1);

function amount(value: number, decimals: number, unit: Unit): string {
  const text = Math.abs(value).toFixed(decimals);
  const sign = Number(text) === 0 ? "" : value < 0 ? MINUS : "+";
  return `${sign}${text}${spaced(unit)}`;
}

interface WhyCell {
  readonly change: WhyChange;
  readonly part: number;
  readonly error: number | null;
}

/** The largest first. */
const bySize = ({ changes }: Why, { parts, errors }: WhyParts): WhyCell[] =>
  changes
    .map((change, k) => ({ change, part: parts[k] ?? 0, error: errors?.[k] ?? null }))
    .sort((one, other) => Math.abs(other.part) - Math.abs(one.part));

/** "−59 % more cells (pack.cells), +4 % a pack that sags more (pack.resistance), the rest +3 %". */
function partsWords(why: Why, measure: WhyParts, unit: Unit): string {
  const decimals = decimalsOf(measure);
  const shown = (value: number) => Number(Math.abs(value).toFixed(decimals)) > 0;
  const all = bySize(why, measure);
  const one = all.length === NAMED + 1 ? NAMED + 1 : NAMED; // a rest of one change is named as well
  const named = all.slice(0, one).filter(({ part }) => shown(part));
  const rest = all.filter((cell) => !named.includes(cell)).reduce((sum, { part }) => sum + part, 0);
  const words = named.map(({ change, part, error }) => {
    const about = error === null || !shown(error) ? "" : ` (\u00b1${Math.abs(error).toFixed(decimals)})`;
    return `${amount(part, decimals, unit)}${about} ${changeWords(change)}`;
  });
  return [...words, ...(shown(rest) ? [`the rest ${amount(rest, decimals, unit)}`] : [])].join(", ");
}

/** "; simulated −50 %": what the trials say where it is not what theory says. */
function simulatedWords(measure: WhyParts, unit: Unit): string {
  if (measure.simulated === null) return "";
  const decimals = decimalsOf(measure);
  const [theory, trials] = [measure.whole, measure.simulated].map((value) => amount(value, decimals, unit));
  const beyond = amount(measure.simulated - measure.whole, decimals, unit);
  return theory === trials ? "; trials say the same" : `; trials say ${trials}, ${beyond} beyond theory`;
}

function measureWords(why: Why, title: string, measure: WhyParts | null, unit: Unit): string | null {
  if (measure === null) return null;
  const parts = partsWords(why, measure, unit);
  const whole = amount(measure.whole, decimalsOf(measure), unit);
  return `${title} ${whole} by theory${parts === "" ? "" : `: ${parts}`}${simulatedWords(measure, unit)}`;
}

/** Every measure of an axis that theory can take apart: the boundary, the margins, the starting tune. */
export function axisWhyLines({ why, own }: Pick<Drift, "why" | "own">, axis: Axis): string[] {
  if (why == null) return [];
  const { boundary, tune, gainMargin, phaseMargin, startP, startD } = why.axes[axis];
  const of = tune === null ? "" : ` of the ${tune.pinned ? "pinned" : "starting"} tune`;
  const at = boundary === null ? "" : ` at D ${endText(own, "d", boundary.d)}`;
  return [
    measureWords(why, `boundary${at}`, boundary, "%"),
    measureWords(why, `gain margin${of}`, gainMargin, "dB"),
    measureWords(why, `phase margin${of}`, phaseMargin, "\u00b0"),
    measureWords(why, "starting P", startP, "%"),
    measureWords(why, "starting D", startD, "%"),
  ].filter((line) => line !== null);
}

/** "Roll's boundary …": of the axis whose boundary moves more; null where theory has nothing to say. */
export function whyLine({ why, own }: Pick<Drift, "why" | "own">): string | null {
  if (why == null) return null;
  const size = (axis: Axis) => Math.abs(why.axes[axis].boundary?.whole ?? -1);
  const [axis] = [...AXES].sort((one, other) => size(other) - size(one));
  const [line] = axis === undefined ? [] : axisWhyLines({ why, own }, axis);
  return axis === undefined || line === undefined ? null : `Why: ${AXIS_TITLES[axis].toLowerCase()}, ${line}.`;
}

/** The measure that a gate's own reading is about. */
const OF_GATE: Readonly<Record<MapGateResult["gate"], (why: AxisWhy) => readonly [string, WhyParts | null, Unit]>> = {
  pinnedSafe: ({ phaseMargin }) => ["phase margin", phaseMargin, "\u00b0"],
  newSustained: ({ gainMargin }) => ["gain margin", gainMargin, "dB"],
  boundaryFall: ({ boundary }) => ["boundary", boundary, "%"],
  safeShrink: ({ boundary }) => ["boundary", boundary, "%"],
  startSafe: ({ startP }) => ["starting P", startP, "%"],
};

/** Why a gate saw what it saw; null where theory cannot say, as of any strip. */
export function gateWhy({ why }: Pick<Drift, "why">, result: GateResult): string | null {
  if (why == null || isOfStrip(result)) return null;
  const [title, measure, unit] = OF_GATE[result.gate](why.axes[result.axis]);
  return measureWords(why, title, measure, unit);
}

/** The key of the change that did most to what a gate saw; null where theory cannot say. */
export function gateKey({ why }: Pick<Drift, "why">, result: GateResult): string | null {
  if (why == null || isOfStrip(result)) return null;
  const [, measure] = OF_GATE[result.gate](why.axes[result.axis]);
  return measure === null ? null : (bySize(why, measure)[0]?.change.numbers[0]?.id ?? null);
}

/** How the parts are found, and what they leave out. */
export function whyBasis({ changes, orders, unread }: Why): string {
  const how =
    orders === null
      ? changes.length === 1
        ? "One change"
        : `${changes.length} changes, each averaged over every order in which they can be made (Shapley 1953)`
      : `${changes.length} changes, each averaged over ${orders} orders drawn by chance (Shapley 1953; \u00b1 holds the exact part in 95 of 100)`;
  const left = unread.length === 0 ? "" : ` Not read by theory: ${unread.join(", ")}.`;
  return `${how}; parts add up to theory\u2019s whole.${left}`;
}

interface WhyTable {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly [change: string, ...cells: string[]])[];
}

/** A row per change, then the whole by theory and what the trials say; a column per measure of both axes that there is. */
export function whyTable({ why, own }: Pick<Drift, "why" | "own">): WhyTable | null {
  if (why == null) return null;
  const columns = AXES.flatMap((axis) => axisColumns(why.axes[axis], axis, own));
  if (columns.length === 0) return null;
  const cells = (of: (column: (typeof columns)[number]) => string) => columns.map(of);
  const cell = (value: number | null | undefined, { measure, unit }: (typeof columns)[number]) =>
    value == null ? "" : amount(value, decimalsOf(measure), unit);
  const simulated = columns.some(({ measure }) => measure.simulated !== null);
  return {
    heads: columns.map(({ head }) => head),
    rows: [
      ...why.changes.map((change, k): [string, ...string[]] => [
        changeWords(change),
        ...cells((column) => cell(column.measure.parts[k], column)),
      ]),
      ["Together, by theory", ...cells((column) => cell(column.measure.whole, column))],
      ...(simulated
        ? [["In the trials", ...cells((column) => cell(column.measure.simulated, column))] as [string, ...string[]]]
        : []),
    ],
  };
}

function axisColumns(axis: AxisWhy, name: Axis, own: Drift["own"]) {
  const all: readonly (readonly [string, WhyParts | null, Unit])[] = [
    [`boundary at D ${axis.boundary === null ? "" : endText(own, "d", axis.boundary.d)}`, axis.boundary, "%"],
    ["gain margin", axis.gainMargin, "dB"],
    ["phase margin", axis.phaseMargin, "\u00b0"],
    ["starting P", axis.startP, "%"],
    ["starting D", axis.startD, "%"],
  ];
  return all.flatMap(([title, measure, unit]) =>
    measure === null ? [] : [{ head: `${AXIS_TITLES[name]}, ${title}`, measure, unit }],
  );
}
