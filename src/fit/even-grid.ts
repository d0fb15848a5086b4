// A log's channels on an even grid. Rows jitter and a few are lost; spectra want equal steps.
import { at, numberAt } from "../base/at.js";
import type { FlightLog, Stretch } from "../flight/log.js";

/** Seconds of the log, from `from` to `to`. */
export interface TimeRange {
  readonly from: number;
  readonly to: number;
}

/** A piece of a log without a hole: sample n was at `from + n * step` seconds. */
export interface EvenPiece {
  readonly from: number;
  readonly step: number;
  readonly length: number;
  readonly channels: readonly Float64Array[];
}

/** Steps of time that may be missing and are bridged by a straight line; a longer hole ends the piece. */
const BRIDGED = 3.5;

/**
 * These channels of each stretch, between `within` where it is given and outside `apart`, on steps of the log's median.
 * Straight lines between rows: they weaken a frequency f by up to a third of 1 - cos(2 pi f step), in every channel alike,
 * so that a ratio of two channels keeps its value. What the clock's stamps are off by turns the phase by 2 pi f times
 * that, at random: 80 us at 30 Hz are 0.015 rad. Rows without a number in one of the channels are left out.
 */
export function evenPieces(
  log: FlightLog,
  channels: readonly Float64Array[],
  { within = null, apart = null }: { readonly within?: TimeRange | null; readonly apart?: TimeRange | null } = {},
): EvenPiece[] {
  const used = (row: number): boolean => {
    const time = numberAt(log.time, row);
    if (within !== null && (time < within.from || time > within.to)) return false;
    return channels.every((channel) => Number.isFinite(numberAt(channel, row)));
  };
  const inside = (row: number): boolean =>
    apart !== null && numberAt(log.time, row) > apart.from && numberAt(log.time, row) < apart.to;
  return log.stretches
    .flatMap((stretch) => runs(log, stretch, used, inside))
    .map((rows) => onGrid(log, channels, rows))
    .filter(({ length }) => length > 1);
}

/** Rows that follow each other without a hole. */
function runs(
  log: FlightLog,
  { from, to }: Stretch,
  used: (row: number) => boolean,
  ends: (row: number) => boolean,
): number[][] {
  const found: number[][] = [];
  let rows: number[] = [];
  const close = () => {
    if (rows.length > 1) found.push(rows);
    rows = [];
  };
  for (let row = from; row < to; row++) {
    if (ends(row)) close();
    else if (used(row)) {
      const before = rows.at(-1);
      if (before !== undefined && numberAt(log.time, row) - numberAt(log.time, before) > BRIDGED * log.step) close();
      rows.push(row);
    }
  }
  close();
  return found;
}

function onGrid(log: FlightLog, channels: readonly Float64Array[], rows: readonly number[]): EvenPiece {
  const from = numberAt(log.time, at(rows, 0));
  const until = numberAt(log.time, at(rows, rows.length - 1));
  const length = Math.floor((until - from) / log.step) + 1;
  const even = channels.map(() => new Float64Array(length));
  let k = 0; // the row at or before the sample
  for (let n = 0; n < length; n++) {
    const time = from + n * log.step;
    while (k + 2 < rows.length && numberAt(log.time, at(rows, k + 1)) <= time) k++;
    const [one, other] = [at(rows, k), at(rows, k + 1)];
    const [start, end] = [numberAt(log.time, one), numberAt(log.time, other)];
    const share = (time - start) / (end - start);
    even.forEach((samples, c) => {
      const channel = at(channels, c);
      samples[n] = numberAt(channel, one) * (1 - share) + numberAt(channel, other) * share;
    });
  }
  return { from, step: log.step, length, channels: even };
}
