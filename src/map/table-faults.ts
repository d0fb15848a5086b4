// Whether the tables of a map are as long as its grid and in its order, and belong to its variants.
import { MEASURE_IDS } from "../base/measures.js";
import type { Path } from "../base/problem.js";
import type { StoredPlan } from "../plan/stored-shape.js";
import { byTheory, variantOf } from "./decider.js";
import { toDisplayD, toDisplayP } from "./display-units.js";
import { drawFaults } from "./draw-faults.js";
import type { Fault } from "./fault.js";
import type { AxisMap, GridLines, StabilityMap } from "./format.js";
import { SUSTAINED_ANYWAY } from "./worst.js";

/** What is wrong with one axis of a map, by key. */
export function tableFaults(map: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const path = ["axes", axis];
  const { d, p } = map.axes[axis].grid;
  const size = `expected ${d.length} rows of ${p.length}, one per D and P of the grid`;
  const misfits = tablesOf(map.axes[axis])
    .filter(([, rows]) => rows.length !== d.length || rows.some((row) => row.length !== p.length))
    .map(([key]): Fault => [[...path, ...key], size]);
  return [
    ...misfits,
    ...boundaryFaults(map, axis),
    ...deciderFaults(map, axis),
    ...leftOutFaults(map, axis),
    ...pinnedFaults(map, axis),
    ...drawFaults(map, axis),
  ];
}

type Table = readonly [key: Path, rows: readonly (readonly unknown[])[]];

function tablesOf({ verdict, reasons, decidedBy, safe, measures, absent, margins, confidence }: AxisMap): Table[] {
  const single = Object.entries({ verdict, reasons, decidedBy, safe });
  return [
    ...single.map(([key, rows]): Table => [[key], rows]),
    ...MEASURE_IDS.flatMap((id): Table[] => [
      [["measures", id], measures[id]],
      [["absent", id], absent[id]],
    ]),
    ...(["gainUp", "gainDown", "phase"] as const).map((key): Table => [["margins", key], margins[key]]),
    ...(confidence === undefined ? [] : [[["confidence", "safeDraws"], confidence.safeDraws] as Table]),
  ];
}

function boundaryFaults(map: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const { sustained, byVariant, overshoot, settling, theory } = map.axes[axis].boundary;
  const path = ["axes", axis, "boundary"];
  const { grid } = map.axes[axis];
  const lines = grid.d.length;
  const simulated = map.variants.filter((variant) => variant.axis === axis);
  const found: Fault[] = dFaults(
    grid,
    sustained,
    [...path, "sustained"],
    `expected ${lines} points, one per D of the grid`,
  );
  if (byVariant.length !== simulated.length)
    return [...found, [[...path, "byVariant"], `expected ${simulated.length}, one per variant of ${axis}`]];
  const inEach = `expected ${lines} lines, one per D of the grid`;
  for (const [at, { perD }] of byVariant.entries())
    found.push(...dFaults(grid, perD, [...path, "byVariant", at, "perD"], inEach));
  for (const [at, one] of byVariant.entries())
    for (const key of ["script", "kind", "throttle", "rate", "condition"] as const)
      if (one[key] !== simulated[at]?.[key])
        found.push([[...path, "byVariant", at, key], `${one[key]} here, ${simulated[at]?.[key]} in variants`]);
  for (const [id, crossings] of Object.entries({ overshoot, settling }))
    if (map.limits[id as "overshoot" | "settling"] !== null || crossings.length > 0)
      found.push(...dFaults(grid, crossings, [...path, id], `expected ${lines} lines, one per D of the grid`));
  if (theory?.loops.some(({ perD }) => perD.length !== lines))
    found.push([[...path, "theory", "loops"], `expected ${lines} lines in each, one per D of the grid`]);
  return found;
}

/** Rows that name their D stand in the grid's order. */
function dFaults({ d: lines }: GridLines, rows: readonly { readonly d: number }[], path: Path, size: string): Fault[] {
  if (rows.length !== lines.length) return [[path, size]];
  return rows.flatMap(({ d }, row): Fault[] =>
    d === lines[row] ? [] : [[[...path, row, "d"], `${d} here, ${lines[row]} in the grid`]],
  );
}

function deciderFaults(map: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const last = map.variants.length - 1;
  const outside = map.axes[axis].decidedBy.flat().find((index) => variantOf(index) > last);
  return outside === undefined
    ? []
    : [[["axes", axis, "decidedBy"], `${outside} names no variant, expected ${byTheory(last)} to ${last}`]];
}

/** The number of points that were left out is that of points whose measures are absent for it. */
function leftOutFaults(map: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const { leftOut, absent, verdict } = map.axes[axis];
  if (leftOut === undefined) return [];
  const isLeftOut = (i: number, j: number) => MEASURE_IDS.some((id) => absent[id][i]?.[j] === SUSTAINED_ANYWAY);
  const points = verdict.flatMap((row, i) => [...row.keys()].filter((j) => isLeftOut(i, j))).length;
  return points === leftOut.points
    ? []
    : [[["axes", axis, "leftOut", "points"], `${leftOut.points} here, ${points} in absent`]];
}

/** A tune that the sweep pins is judged in every map of it, and no other one. */
function pinnedFaults(map: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const sweepPinned = (map.plan as StoredPlan).sweep.pinned?.[axis];
  const { pinned } = map.axes[axis];
  const path = ["axes", axis, "pinned"];
  if (sweepPinned === undefined || pinned === undefined)
    return sweepPinned === pinned
      ? []
      : [[path, pinned === undefined ? "missing, the sweep pins a tune" : "the sweep pins none"]];
  const gains = [
    ["p", toDisplayP(sweepPinned.p)],
    ["d", toDisplayD(sweepPinned.d)],
  ] as const;
  return gains.flatMap(([gain, planned]): Fault[] =>
    pinned[gain] === planned ? [] : [[[...path, gain], `${pinned[gain]} here, ${planned} in the plan`]],
  );
}
