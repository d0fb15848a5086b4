// Where a controller was free in what it wrote: between a limit and the next, with a little room on either side.
import { numberAt } from "../base/at.js";
import type { FlightLog, Stretch } from "../flight/log.js";

/** A duty or command nearer to its limits than this may be cut off. */
const NEAR = 0.002;

/** Columns of one number per rotor that keep between two limits. */
export interface Limits {
  readonly columns: readonly (Float64Array | null)[];
  readonly low: number;
  readonly high: number;
}

/**
 * The log's stretches less what lies within `guard` seconds of a number at its limits or of a missing value in these columns,
 * none shorter than `shortest` seconds.
 */
export function freeSpans(
  { stretches, step, time }: FlightLog,
  limits: readonly Limits[],
  needed: readonly (Float64Array | null)[],
  { guard, shortest }: { readonly guard: number; readonly shortest: number },
): Stretch[] {
  const columns = needed.filter((column) => column !== null);
  const bounds = limits.flatMap(({ columns, low, high }) =>
    columns.flatMap((column) => (column === null ? [] : [{ column, above: low + NEAR, below: high - NEAR }])),
  );
  const isFree = (row: number): boolean =>
    columns.every((column) => !Number.isNaN(numberAt(column, row))) &&
    bounds.every(({ column, above, below }) => numberAt(column, row) > above && numberAt(column, row) < below);
  const room = Math.ceil(guard / step);
  const spans: Stretch[] = [];
  for (const { from, to } of stretches) {
    let begin = from;
    for (let row = from; row <= to; row++) {
      if (row < to && isFree(row)) continue;
      const end = row < to ? row - room : to;
      if (end > begin && numberAt(time, end - 1) - numberAt(time, begin) >= shortest)
        spans.push({ from: begin, to: end });
      begin = row + 1 + room;
    }
  }
  return spans;
}
