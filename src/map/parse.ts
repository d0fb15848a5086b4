// map.json read back: shape, then what the parts must agree on.
import { check } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { InputError, type Path, type Problem } from "../base/problem.js";
import type { StabilityMap } from "./format.js";
import { type Fault, questionFaults } from "./question-faults.js";
import { mapSchema } from "./schema.js";
import { tableFaults } from "./table-faults.js";

/** The map of a document. InputError with every problem found. */
export function parseMap(document: Document): StabilityMap {
  const map: StabilityMap = check(mapSchema, document);
  const problems = mapFaults(map).map(([path, message]): Problem => problemAt(document, path, message));
  if (problems.length > 0) throw new InputError(problems);
  return map;
}

function mapFaults(map: StabilityMap): Fault[] {
  const lines = (["p", "d"] as const).flatMap((gain) => lineFaults(map.grid[gain], ["grid", gain]));
  if (lines.length > 0) return lines;
  return [
    ...questionFaults(map),
    ...ladderFaults(map),
    ...(["roll", "pitch"] as const).flatMap((axis) => tableFaults(map, axis)),
  ];
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
