// points.csv: one row per axis and point, units in the headers; an absent measure is an empty cell with its reason.
import { ABSENCES, MEASURES, VERDICTS } from "../base/measures.js";
import { limitingCaseBy, NOBODY } from "../map/decider.js";
import type { StabilityMap } from "../map/format.js";
import { SUSTAINED_ANYWAY } from "../map/worst.js";
import { AXES, type Axis } from "../words/axes.js";
import { printableMap } from "../words/printable.js";
import { type Cell, csvText } from "./csv-text.js";

export const MARGINS = Object.freeze([
  ["Gain margin up [dB]", "gainUp"],
  ["Gain margin down [dB]", "gainDown"],
  ["Phase margin [deg]", "phase"],
] as const);

function header(map: StabilityMap): string[] {
  const { p, d } = map.units;
  return [
    "Axis",
    `P [${p}]`,
    `D [${d}]`,
    "Verdict",
    "Reasons",
    "Decided by",
    "Decided at throttle [%]",
    "Decided at rate [deg/s]",
    "Decided under",
    "Safe",
    "Safe draws",
    "Draws",
    ...MEASURES.map((m) => `${m.title} [${m.unit}]`),
    ...MARGINS.map(([title]) => title),
    "Absent",
  ];
}

function reasonWords(bits: number): string {
  return VERDICTS.filter((_, bit) => (bits >> bit) & 1).join(" ");
}

function absences(map: StabilityMap, axis: Axis, i: number, j: number): string {
  const of = map.axes[axis].absent;
  const codes = MEASURES.map((m) => ({ title: m.title, code: of[m.id][i]?.[j] ?? 0 })).filter(({ code }) => code !== 0);
  const leftOut = codes.filter(({ code }) => code === SUSTAINED_ANYWAY).map(({ title }) => title);
  return [
    ...codes
      .filter(({ code }) => code !== SUSTAINED_ANYWAY)
      .map(({ title, code }) => `${title}: ${ABSENCES[code] ?? "unknown"}`),
    ...(leftOut.length === 0 ? [] : [`${leftOut.join(", ")}: ${ABSENCES[SUSTAINED_ANYWAY]}`]),
  ].join("; ");
}

function row(map: StabilityMap, axis: Axis, i: number, j: number): Cell[] {
  const of = map.axes[axis];
  const limitingCase = limitingCaseBy(of.decidedBy[i]?.[j] ?? NOBODY, (index) => map.variants[index]);
  return [
    axis,
    of.grid.p[j] ?? null,
    of.grid.d[i] ?? null,
    of.verdict[i]?.[j] ?? null,
    reasonWords(of.reasons[i]?.[j] ?? 0),
    limitingCase?.script ?? null,
    limitingCase?.throttle ?? null,
    limitingCase?.rate ?? null,
    limitingCase?.condition ?? null,
    of.safe[i]?.[j] ?? null,
    of.confidence?.safeDraws[i]?.[j] ?? null,
    of.confidence === undefined ? null : (map.uncertainty?.pointDraws ?? null),
    ...MEASURES.map((m) => of.measures[m.id][i]?.[j] ?? null),
    ...MARGINS.map(([, key]) => of.margins[key][i]?.[j] ?? null),
    absences(map, axis, i, j),
  ];
}

/** The map's points as CSV (RFC 4180), text that could start a formula neutralised. */
export function renderCsv(map: StabilityMap): string {
  const fit = printableMap(map);
  const rows = AXES.flatMap((axis) => {
    const { d, p } = fit.axes[axis].grid;
    return d.flatMap((_, i) => p.map((__, j) => row(fit, axis, i, j)));
  });
  return csvText([header(fit), ...rows]);
}
