// map.json read back: shape, then what the parts must agree on.
import { check } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { MEASURE_IDS } from "../base/measures.js";
import { InputError, type Path, type Problem } from "../base/problem.js";
import { byTheory, variantOf } from "./decider.js";
import type { AxisMap, StabilityMap } from "./format.js";
import { mapSchema } from "./schema.js";

/** The map of a document. InputError with every problem found. */
export function parseMap(document: Document): StabilityMap {
  const map: StabilityMap = check(mapSchema, document);
  const problems = mapFaults(map).map(([path, message]): Problem => problemAt(document, path, message));
  if (problems.length > 0) throw new InputError(problems);
  return map;
}

type Fault = readonly [path: Path, message: string];

function mapFaults(map: StabilityMap): Fault[] {
  const lines = (["p", "d"] as const).flatMap((gain) => lineFaults(map.grid[gain], ["grid", gain]));
  if (lines.length > 0) return lines;
  return [
    ...planFaults(map),
    ...ladderFaults(map),
    ...(["roll", "pitch"] as const).flatMap((axis) => axisFaults(map, axis)),
  ];
}

function planFaults({ grid, variants, plan }: StabilityMap): Fault[] {
  const kept = plan as { sweep: { grid: typeof grid }; variants: readonly unknown[] };
  const counts = [
    [["variants"], variants.length, kept.variants.length],
    [["grid", "p"], grid.p.length, kept.sweep.grid.p.length],
    [["grid", "d"], grid.d.length, kept.sweep.grid.d.length],
  ] as const;
  return counts.flatMap(([path, here, planned]): Fault[] =>
    here === planned ? [] : [[path, `${here} here, ${planned} in the plan`]],
  );
}

/** Every trial names a manoeuvre of its axis and is as long as what is commanded in it. */
function ladderFaults({ ladder }: StabilityMap): Fault[] {
  if (ladder === undefined) return [];
  const { manoeuvres, steps } = ladder;
  return steps.flatMap(({ axes }, step) =>
    Object.entries(axes).flatMap(([axis, { trials }]) =>
      trials.flatMap(({ manoeuvre, rate, angle }, at): Fault[] => {
        const path = ["ladder", "steps", step, "axes", axis, "trials", at];
        const flown = manoeuvres[manoeuvre];
        if (flown?.axis !== axis) return [[[...path, "manoeuvre"], `${manoeuvre} names no manoeuvre of ${axis}`]];
        const long = rate.length <= flown.command.length && (angle?.length ?? 0) <= rate.length;
        return long ? [] : [[path, "longer than what is commanded"]];
      }),
    ),
  );
}

function lineFaults(line: readonly number[], path: Path): Fault[] {
  if (line.length < 2) return [[path, `${line.length} grid lines, expected at least 2`]];
  return line.every((value, at) => at === 0 || value > (line[at - 1] as number)) ? [] : [[path, "does not rise"]];
}

function axisFaults(map: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const one = map.axes[axis];
  const path = ["axes", axis];
  const { d, p } = map.grid;
  const size = `expected ${d.length} rows of ${p.length}, one per D and P of the grid`;
  const misfits = tablesOf(one)
    .filter(([, rows]) => rows.length !== d.length || rows.some((row) => row.length !== p.length))
    .map(([key]): Fault => [[...path, ...key], size]);
  return [...misfits, ...boundaryFaults(map, axis), ...deciderFaults(map, axis)];
}

type Table = readonly [key: Path, rows: readonly (readonly unknown[])[]];

function tablesOf({ verdict, reasons, decidedBy, safe, measures, absent, margins }: AxisMap): Table[] {
  const single = Object.entries({ verdict, reasons, decidedBy, safe });
  return [
    ...single.map(([key, rows]): Table => [[key], rows]),
    ...MEASURE_IDS.flatMap((id): Table[] => [
      [["measures", id], measures[id]],
      [["absent", id], absent[id]],
    ]),
    ...(["gainUp", "gainDown", "phase"] as const).map((key): Table => [["margins", key], margins[key]]),
  ];
}

function boundaryFaults(map: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const { sustained, byCondition, theory } = map.axes[axis].boundary;
  const path = ["axes", axis, "boundary"];
  const lines = map.grid.d.length;
  const flown = map.variants.filter((variant) => variant.axis === axis).length;
  const found: Fault[] = [];
  if (sustained.length !== lines)
    found.push([[...path, "sustained"], `expected ${lines} points, one per D of the grid`]);
  if (byCondition.length !== flown)
    found.push([[...path, "byCondition"], `expected ${flown}, one per variant of ${axis}`]);
  if (byCondition.some(({ perD }) => perD.length !== lines))
    found.push([[...path, "byCondition"], `expected ${lines} lines in each, one per D of the grid`]);
  if (theory?.loops.some(({ perD }) => perD.length !== lines))
    found.push([[...path, "theory", "loops"], `expected ${lines} lines in each, one per D of the grid`]);
  return found;
}

function deciderFaults(map: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const last = map.variants.length - 1;
  const outside = map.axes[axis].decidedBy.flat().find((index) => variantOf(index) > last);
  return outside === undefined
    ? []
    : [[["axes", axis, "decidedBy"], `${outside} names no variant, expected ${byTheory(last)} to ${last}`]];
}
