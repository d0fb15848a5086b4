// The grid of a checked sweep file, axis by axis: the lines it gives, or how many the plan shall choose.
import { D_UNIT, P_UNIT } from "../base/units.js";
import type { SweepFile } from "./schema.js";
import type { AutoGrid, Axis, GainGrid, GridLine, LineCounts, RequestedSweep } from "./sweep.js";

type GridFile = SweepFile["grid"];
type LinesFile = Exclude<Extract<GridFile, { p: unknown }>, AutoGrid>;
export type LineFile = LinesFile["p"];

/** What the file says of each axis: one grid for both, or one for each. */
export const gridByAxis = (grid: GridFile): Readonly<Record<Axis, AutoGrid | LinesFile>> =>
  "roll" in grid ? grid : { roll: grid, pitch: grid };

/** SI. */
export function requestedGrid(grid: GridFile): RequestedSweep["grid"] {
  if (!("roll" in grid)) {
    const both = axisLines(grid);
    return { roll: both, pitch: both };
  }
  return { roll: axisLines(grid.roll), pitch: axisLines(grid.pitch) };
}

const axisLines = (grid: AutoGrid | LinesFile): AutoGrid | GainGrid =>
  "auto" in grid ? grid : { p: gridLine(grid.p, P_UNIT), d: gridLine(grid.d, D_UNIT) };

/** As listed, or evenly spaced in the gain's unit with both ends exactly as written. */
function gridLine(line: LineFile, unit: number): GridLine {
  if (isList(line)) return line;
  const { from, to, points } = line;
  const step = (to - from) / unit / (points - 1);
  return Array.from({ length: points }, (_, at) => (at === points - 1 ? to : from + at * step * unit));
}

export const isList = (line: LineFile): line is number[] => Array.isArray(line);

/** How many lines each axis has, without making them. */
export function requestedLines(grid: GridFile): Readonly<Record<Axis, LineCounts>> {
  const counts = (one: AutoGrid | LinesFile): LineCounts =>
    "auto" in one ? one.auto : { p: lineCount(one.p), d: lineCount(one.d) };
  const { roll, pitch } = gridByAxis(grid);
  return { roll: counts(roll), pitch: counts(pitch) };
}

const lineCount = (line: LineFile): number => (isList(line) ? line.length : line.points);
