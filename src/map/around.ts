// What lies around each point of a grid, within a factor of its gains.
import { at } from "../base/at.js";
import type { GainGrid } from "../sweep/sweep.js";

/** The most extreme value within the factor of each point; neighbours count always. */
export function around(
  { p, d }: GainGrid,
  values: Float64Array,
  factor: number,
  extreme: (one: number, other: number) => number,
): Float64Array {
  const columns = p.map((_, column) => withinReach(p, column, factor));
  const rows = d.map((_, row) => withinReach(d, row, factor));
  const alongP = new Float64Array(values.length);
  const both = new Float64Array(values.length);
  for (const [row] of d.entries())
    for (const [column, [from, to]] of columns.entries()) {
      let found = at(values, row * p.length + from);
      for (let k = from + 1; k <= to; k++) found = extreme(found, at(values, row * p.length + k));
      alongP[row * p.length + column] = found;
    }
  for (const [row, [from, to]] of rows.entries())
    for (const [column] of p.entries()) {
      let found = at(alongP, from * p.length + column);
      for (let k = from + 1; k <= to; k++) found = extreme(found, at(alongP, k * p.length + column));
      both[row * p.length + column] = found;
    }
  return both;
}

function withinReach(line: readonly number[], index: number, factor: number): readonly [from: number, to: number] {
  const here = at(line, index);
  let [from, to] = [Math.max(0, index - 1), Math.min(line.length - 1, index + 1)];
  while (from > 0 && at(line, from - 1) >= here / factor) from--;
  while (to < line.length - 1 && at(line, to + 1) <= here * factor) to++;
  return [from, to];
}
