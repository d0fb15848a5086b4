// Whether what a map says of its draws fits its grid and its spreads.
import type { Path } from "../base/problem.js";
import type { Fault } from "./fault.js";
import type { StabilityMap } from "./format.js";

/** What is wrong with the draws of one axis, by key; counts of points are checked with the other tables. */
export function drawFaults({ axes, uncertainty }: StabilityMap, axis: "roll" | "pitch"): Fault[] {
  const { confidence, grid } = axes[axis];
  const path = ["axes", axis, "confidence"];
  if (uncertainty === undefined || confidence === undefined) {
    if (uncertainty === confidence) return [];
    return confidence === undefined
      ? [[path, "missing, the map has draws"]]
      : [[["uncertainty"], `missing, ${axis} has a confidence`]];
  }
  const found = confidence.band.some(({ d }, row) => d !== grid.d[row]) || confidence.band.length !== grid.d.length;
  return [
    ...(found ? [fault([...path, "band"], `expected ${grid.d.length} points, one per D of the grid`)] : []),
    ...uncertainty.draws.flatMap((draw, k) => [
      ...lengthFault(["uncertainty", "draws", k, axis, "boundary"], draw[axis].boundary, grid.d, "D of the grid"),
      ...(axis === "roll"
        ? lengthFault(["uncertainty", "draws", k, "values"], draw.values, uncertainty.spreads, "spread")
        : []),
    ]),
  ];
}

const fault = (path: Path, words: string): Fault => [path, words];

const lengthFault = (path: Path, list: readonly unknown[], asked: readonly unknown[], each: string): Fault[] =>
  list.length === asked.length ? [] : [fault(path, `${list.length} items, expected ${asked.length}, one per ${each}`)];
