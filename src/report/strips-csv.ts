// strips.csv: one row per strip and gain; every measure that any strip reads has a column, empty where a strip does not read it.
import { STRIP_MEASURES } from "../base/strip-measures.js";
import type { StabilityMap } from "../map/format.js";
import { printableMap } from "../words/printable.js";
import { type NamedStrip, stripsOf } from "../words/strip-words.js";
import { MARGINS } from "./csv.js";
import { type Cell, csvText } from "./csv-text.js";

const COLUMNS = (["yaw", "i"] as const).flatMap((kind) =>
  STRIP_MEASURES[kind].map(({ id, title, unit }) => ({ kind, id, title, unit })),
);

const HEADER = [
  "Gain",
  "Value",
  "Unit",
  "On the controller",
  "Model's own",
  "Chosen",
  "Passes",
  "Fails by",
  "Decided by",
  "Decided at throttle [%]",
  "Decided at rate [deg/s]",
  "Decided under",
  ...COLUMNS.map(({ kind, title, unit }) => `${kind === "i" ? "I: " : ""}${title} [${unit}]`),
  ...MARGINS.map(([title]) => title),
];

function row({ units }: StabilityMap, { kind, title, strip }: NamedStrip, at: number): Cell[] {
  const gain = strip.gains[at] ?? 0;
  const failure = strip.fails[at] ?? null;
  const { script = null, throttle = null, rate = null, condition = null } = failure?.decidedBy ?? {};
  return [
    title,
    gain,
    kind === "yaw" ? units.p : units.i,
    strip.oneUnit === null ? null : gain / strip.oneUnit,
    gain === strip.declared,
    gain === strip.choice,
    failure === null,
    failure?.limit ?? null,
    ...[script, throttle, rate, condition],
    ...COLUMNS.map((column) => (column.kind === kind ? (strip.measures[column.id]?.[at] ?? null) : null)),
    ...MARGINS.map(([, key]) => strip.margins[key][at] ?? null),
  ];
}

/** The strips of a map as CSV (RFC 4180); the header alone where it has none. */
export function renderStripsCsv(map: StabilityMap): string {
  const fit = printableMap(map);
  const rows = stripsOf(fit).flatMap((named) => named.strip.gains.map((_, at) => row(fit, named, at)));
  return csvText([HEADER, ...rows]);
}
