// Whether what a map says of its draws fits its grid and its spreads.
import type { Path } from "../base/problem.js";
import type { DrawnNumbers } from "./drawn-numbers.js";
import type { Fault } from "./fault.js";
import type { StabilityMap } from "./format.js";

/**
 * What is wrong with the draws of one axis, by key; counts of points are checked with the other tables. A baseline has
 * draws without their values and without counts.
 */
export function drawFaults({ axes, uncertainty }: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const { confidence, grid } = axes[axis];
  const { draws = [], spreads = [], numbers } = uncertainty ?? {};
  if (uncertainty === undefined && confidence !== undefined)
    return [fault(["uncertainty"], `missing, ${axis} has a confidence`)];
  const band = confidence?.band.map(({ d }) => d) ?? grid.d;
  const misplaced = band.length !== grid.d.length || band.some((d, row) => d !== grid.d[row]);
  return [
    ...(misplaced
      ? [fault(["axes", axis, "confidence", "band"], `expected ${grid.d.length} points, one per D of the grid`)]
      : []),
    ...(axis === "roll" && numbers !== undefined ? numbersFaults(numbers, draws) : []),
    ...draws.flatMap((draw, k) => [
      ...lengthFault(
        ["uncertainty", "draws", k, axis, "boundary"],
        draw[axis].boundary,
        grid.d,
        "places, one per D of the grid",
      ),
      ...(axis === "roll" && (draw.values.length > 0 || confidence !== undefined)
        ? lengthFault(["uncertainty", "draws", k, "values"], draw.values, spreads, "values, one per spread")
        : []),
    ]),
  ];
}

const numbersFaults = ({ places, values }: DrawnNumbers, draws: readonly unknown[]): Fault[] => [
  ...lengthFault(["uncertainty", "numbers", "values"], values, draws, "lists, one per draw"),
  ...values.flatMap((row, k) =>
    lengthFault(["uncertainty", "numbers", "values", k], row, places, "numbers, one per list of places"),
  ),
];

const fault = (path: Path, words: string): Fault => [path, words];

const lengthFault = (path: Path, list: readonly unknown[], asked: readonly unknown[], each: string): Fault[] =>
  list.length === asked.length ? [] : [fault(path, `expected ${asked.length} ${each}`)];
