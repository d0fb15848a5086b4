// map.json read back: its shape is checked first, then the consistency of its parts.
import { check, checkPresent } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { type Path, Problems } from "../base/problem.js";
import { MOST_POINTS, pointCount } from "../base/sizes.js";
import type { Fault } from "./fault.js";
import type { GridLines, StabilityMap } from "./format.js";
import { missingMeasures, type StoredMap, withEveryMeasure } from "./older-measures.js";
import { questionFaults } from "./question-faults.js";
import { mapSchema } from "./schema.js";
import { mayBeMissing, storedQuestion } from "./simulable.js";
import { stripFaults } from "./strip-faults.js";
import { tableFaults } from "./table-faults.js";

/** The map of a document. InputError with the problems found. */
export function parseMap(document: Document): StabilityMap {
  checkPresent(storedQuestion, document, mayBeMissing);
  const stored = check(mapSchema, document) as unknown as StoredMap;
  const refuse = (faults: readonly Fault[]) => {
    const problems = new Problems();
    for (const [path, message] of faults) problems.add(problemAt(document, path, message));
    problems.throwIfAny();
  };
  refuse(AXES.flatMap((axis) => gridFaults(stored.axes[axis].grid, ["axes", axis, "grid"])));
  refuse(missingMeasures(stored));
  const map = withEveryMeasure(stored);
  refuse([
    ...questionFaults(map),
    ...ladderFaults(map),
    ...stripFaults(map.strips),
    ...AXES.flatMap((axis) => tableFaults(map, axis)),
  ]);
  return map;
}

const AXES = ["roll", "pitch"] as const;

/** Every trial names a manoeuvre of its axis and is as long as what is commanded in it. */
function ladderFaults({ ladder }: StabilityMap): Fault[] {
  if (ladder === undefined) return [];
  const { manoeuvres, steps } = ladder;
  return steps.flatMap(({ axes }, step) =>
    Object.entries(axes).flatMap(([axis, { trials }]): Fault[] => {
      const path = ["ladder", "steps", step, "axes", axis, "trials"];
      for (const [at, { manoeuvre, rate, angle }] of trials.entries()) {
        const trialManoeuvre = manoeuvres[manoeuvre];
        if (trialManoeuvre?.axis !== axis)
          return [[[...path, at, "manoeuvre"], `${manoeuvre} names no manoeuvre of ${axis}`]];
        if (rate.length > trialManoeuvre.command.length || (angle?.length ?? 0) > rate.length)
          return [[[...path, at], "longer than what is commanded"]];
      }
      return [];
    }),
  );
}

/** Faults of a grid: too few lines, not rising, or larger than any sweep allows. */
export function gridFaults({ p, d }: GridLines, path: Path): Fault[] {
  const points = pointCount({ p, d });
  const size = `${points} points, expected at most ${MOST_POINTS}`;
  return [
    ...lineFaults(p, [...path, "p"]),
    ...lineFaults(d, [...path, "d"]),
    ...(points > MOST_POINTS ? [[path, size] as const] : []),
  ];
}

function lineFaults(line: readonly number[], path: Path): Fault[] {
  if (line.length < 2) return [[path, `${line.length} grid lines, expected at least 2`]];
  return line.every((value, at) => at === 0 || value > (line[at - 1] as number)) ? [] : [[path, "does not rise"]];
}
