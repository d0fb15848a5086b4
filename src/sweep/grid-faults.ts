// Faults of a grid whose form is right: empty, backwards, or too large.
import type { Path } from "../base/problem.js";
import { MOST_POINTS } from "../base/sizes.js";
import { quantityText } from "../base/units.js";
import { gridByAxis, isList, type LineFile, requestedLines } from "./grid.js";
import type { SweepFile } from "./schema.js";
import type { Report } from "./sweep-faults.js";

type GainKind = "pGain" | "dGain";

export function gridFaults({ grid }: SweepFile, report: Report): void {
  const axes = "roll" in grid ? (["roll", "pitch"] as const) : (["roll"] as const); // one for both is looked at once
  for (const axis of axes) {
    const path: Path = "roll" in grid ? ["grid", axis] : ["grid"];
    const lines = gridByAxis(grid)[axis];
    if ("auto" in lines) continue;
    lineFaults(lines.p, "pGain", [...path, "p"], report);
    lineFaults(lines.d, "dGain", [...path, "d"], report);
    const { p, d } = requestedLines(grid)[axis];
    if (p * d > MOST_POINTS)
      report(
        path,
        `${p} x ${d} are ${p * d} points, expected at most ${MOST_POINTS}; boundaries are refined below the grid`,
      );
  }
}

function lineFaults(line: LineFile, kind: GainKind, path: Path, report: Report): void {
  const backwards = (from: number, to: number) =>
    `runs backwards, from ${quantityText(from, kind)} to ${quantityText(to, kind)}; expected the smaller first`;
  if (!isList(line)) {
    const { from, to } = line;
    if (from === to) report(path, `is empty: from and to are both ${quantityText(to, kind)}`);
    if (from > to) report(path, backwards(from, to));
    return;
  }
  line.forEach((gain, at) => {
    const before = line[at - 1];
    if (before === undefined || gain > before) return;
    const place: Path = [...path, at];
    if (gain === before) report(place, `${quantityText(gain, kind)} again; expected rising gains, each once`);
    else report(place, backwards(before, gain));
  });
}
