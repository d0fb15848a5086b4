// A column of a log on the controller's own periods, its slope and its sum.
import { numberAt } from "../base/at.js";
import type { Stretch } from "../flight/log.js";

/** Difference between a log's step and the control period, as a share, up to which its rows are taken for the periods. */
const SAME_STEP = 0.02;

/** Whether a log has a row for every control period. */
export const keepsStep = (step: number, rate: number): boolean => Math.abs(step * rate - 1) < SAME_STEP;

/** Instants of the control periods within a span of rows; a log that keeps step has them in its rows. */
export interface LoopGrid {
  readonly rate: number; // Hz
  readonly count: number;
  /** Of a column, one value per control period: third order between the rows. */
  sample(column: Float64Array): Float64Array;
}

export function loopGridOf(time: Float64Array, step: number, { from, to }: Stretch, rate: number): LoopGrid {
  if (keepsStep(step, rate)) return { rate, count: to - from, sample: (column) => column.slice(from, to) };
  const start = numberAt(time, from);
  const count = Math.floor((numberAt(time, to - 1) - start) * rate) + 1;
  return { rate, count, sample: (column) => between(time, column, { from, to }, start, rate, count) };
}

/** Cubic Hermite with slopes over the two neighbours: passes through every row, bends little between them. */
function between(
  time: Float64Array,
  column: Float64Array,
  { from, to }: Stretch,
  start: number,
  rate: number,
  count: number,
): Float64Array {
  const out = new Float64Array(count);
  const slope = (row: number): number => {
    const [before, after] = [Math.max(from, row - 1), Math.min(to - 1, row + 1)];
    return (numberAt(column, after) - numberAt(column, before)) / (numberAt(time, after) - numberAt(time, before));
  };
  let row = from;
  let [left, right] = [slope(row), slope(row + 1)];
  for (let k = 0; k < count; k++) {
    const t = start + k / rate;
    while (row < to - 2 && numberAt(time, row + 1) <= t) {
      row++;
      left = right;
      right = slope(row + 1);
    }
    const width = numberAt(time, row + 1) - numberAt(time, row);
    const x = (t - numberAt(time, row)) / width;
    const [a, b] = [numberAt(column, row), numberAt(column, row + 1)];
    const rest = 1 - x;
    out[k] =
      (1 + 2 * x) * rest * rest * a +
      x * rest * rest * width * left +
      x * x * (3 - 2 * x) * b -
      x * x * rest * width * right;
  }
  return out;
}

/** Change from period to period, per second; 0 at the first. */
export function slopeOf(values: Float64Array, rate: number): Float64Array {
  const out = new Float64Array(values.length);
  for (let k = 1; k < values.length; k++) out[k] = (numberAt(values, k) - numberAt(values, k - 1)) * rate;
  return out;
}

/** Sum so far, this period's included, times the period. */
export function sumOf(values: Float64Array, rate: number): Float64Array {
  const out = new Float64Array(values.length);
  let sum = 0;
  for (let k = 0; k < values.length; k++) {
    sum += numberAt(values, k) / rate;
    out[k] = sum;
  }
  return out;
}
