// Where a log's duties were free: between a limit and the next, with a little room on either side.
import { numberAt } from "../base/at.js";
import type { FlightLog, Stretch } from "../flight/log.js";

/** A duty nearer to idle or full than this may be cut off. */
const NEAR = 0.002;

/**
 * The log's stretches less what lies within `guard` seconds of a duty at its limits or of a missing value in these columns,
 * none shorter than `shortest` seconds.
 */
export function freeSpans(
  { duty, stretches, step, time }: FlightLog,
  needed: readonly (Float64Array | null)[],
  idle: number,
  { guard, shortest }: { readonly guard: number; readonly shortest: number },
): Stretch[] {
  const columns = [...duty, ...needed].filter((column) => column !== null);
  const duties = duty.filter((column) => column !== null);
  const isFree = (row: number): boolean =>
    columns.every((column) => !Number.isNaN(numberAt(column, row))) &&
    duties.every((column) => numberAt(column, row) > idle + NEAR && numberAt(column, row) < 1 - NEAR);
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
