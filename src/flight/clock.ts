// The clock of a log: its step, rows whose time cannot be, gaps, and where it was set back. Nothing is healed in silence: each
// is counted, and time is cut where it does not simply go on.
import { numberAt } from "../base/at.js";
import { Tally } from "./tally.js";

/** A step longer than this many median steps is a gap. */
const GAP = 2.5;
/** Rows that may stand at a wrong time before the clock is taken to have been set. */
const ASTRAY = 5;

export interface Clock {
  /** Seconds from the first row, strictly rising over the rows that are left. */
  readonly time: Float64Array;
  /** Index in the file's rows of each that is left; null: all of them. */
  readonly rows: Uint32Array | null;
  /** Indices in `time` before which time is cut, rising. */
  readonly cuts: readonly number[];
  /** Median step, s. */
  readonly step: number;
  /** Indices in the file's rows. */
  readonly same: Tally;
  readonly astray: Tally;
  readonly back: Tally;
  /** s, of the first jump back. */
  readonly backBy: number;
  readonly gaps: Tally;
  /** s, of all gaps; of the longest. */
  readonly gapTime: number;
  readonly longestGap: number;
  /** Steps between which 90 of 100 lie, s. */
  readonly jitter: readonly [low: number, high: number];
}

/** `written`: times as they stand in the log, of which one is `scale` seconds; the result takes its place, as it may be large. */
export function clockOf(written: Float64Array, scale: number): Clock {
  const first = written[0] ?? 0;
  const seconds = (row: number): number => (numberAt(written, row) - first) * scale;
  const [low, step, high] = quantiles(stepsOf(written, scale), [0.05, 0.5, 0.95]);
  const state = {
    same: new Tally(),
    astray: new Tally(),
    back: new Tally(),
    gaps: new Tally(),
    backBy: 0,
    gapTime: 0,
    longestGap: 0,
  };
  let rows: Uint32Array | null = null;
  const cuts: number[] = [];
  let count = 0;
  let offset = 0;
  const take = (row: number, at: number): void => {
    if (row > count) rows ??= inOrder(written.length);
    if (rows !== null) rows[count] = row;
    written[count++] = at; // what stands there has been read
  };
  for (let row = 0; row < written.length; row++) {
    const now = seconds(row) + offset;
    const before = written[count - 1] ?? Number.NEGATIVE_INFINITY;
    const since = now - before;
    if (count === 0 || (since > 0 && since <= GAP * step)) take(row, now);
    else if (since === 0) state.same.add(row);
    else if (goesOn(row, before)) state.astray.add(row);
    else if (since < 0) {
      if (state.back.count === 0) state.backBy = -since;
      state.back.add(row);
      offset += step - since;
      cuts.push(count);
      take(row, before + step);
    } else {
      state.gaps.add(row);
      state.gapTime += since - step;
      state.longestGap = Math.max(state.longestGap, since);
      cuts.push(count);
      take(row, now);
    }
  }
  /** Whether a row a little later goes on from `before`, so that this one alone is at a wrong time. */
  function goesOn(row: number, before: number): boolean {
    const now = seconds(row) + offset;
    for (let next = row + 1; next <= Math.min(row + ASTRAY, written.length - 1); next++) {
      const since = seconds(next) + offset - before;
      if (since > 0 && since <= (next - row + GAP) * step && (now < before || seconds(next) + offset < now))
        return true;
    }
    return false;
  }
  return {
    ...state,
    time: written.subarray(0, count),
    rows: count === written.length ? null : (rows ?? inOrder(count)).subarray(0, count),
    cuts,
    step,
    jitter: [low, high],
  };
}

function inOrder(length: number): Uint32Array {
  const rows = new Uint32Array(length);
  for (let row = 0; row < length; row++) rows[row] = row;
  return rows;
}

/** Most steps that quantiles are taken from; of a longer log every so-many-th. */
const SAMPLE = 1_000_000;

/** Steps forward, s. */
function stepsOf(written: Float64Array, scale: number): Float64Array {
  const every = Math.ceil(written.length / SAMPLE);
  const steps = new Float64Array(Math.ceil(written.length / every));
  let count = 0;
  for (let row = 1; row < written.length; row += every) {
    const step = (numberAt(written, row) - numberAt(written, row - 1)) * scale;
    if (step > 0) steps[count++] = step;
  }
  return steps.subarray(0, count).sort();
}

/** Of numbers in rising order; NaN where there are none. */
const quantiles = <const S extends readonly number[]>(sorted: Float64Array, shares: S) =>
  shares.map((share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN) as {
    [K in keyof S]: number;
  };
