// Where a frequency response meets a line or a circle: found on the grid, refined between its points by the
// polynomial of fifth degree through the six nearest.
import type { ComplexArray } from "./frequency.js";

const POINTS = 6;

/** Values between grid points k and k + 1, as a function of the share 0 to 1 of the way. */
export function between(grid: Float64Array, values: Float64Array, k: number): (share: number) => number {
  const first = Math.min(Math.max(0, k - POINTS / 2 + 1), grid.length - POINTS);
  if (first < 0) throw new RangeError(`a grid of ${grid.length} points is too short: ${POINTS} at least`);
  const origin = grid[k];
  const width = grid[k + 1] - origin;
  const nodes: number[] = [];
  const slopes: number[] = [];
  for (let n = 0; n < POINTS; n++) {
    nodes.push((grid[first + n] - origin) / width);
    slopes.push(values[first + n]);
  }
  // Newton's divided differences, in place.
  for (let order = 1; order < POINTS; order++) {
    for (let n = POINTS - 1; n >= order; n--) slopes[n] = (slopes[n] - slopes[n - 1]) / (nodes[n] - nodes[n - order]);
  }
  return (share) => {
    let value = slopes[POINTS - 1];
    for (let n = POINTS - 2; n >= 0; n--) value = value * (share - nodes[n]) + slopes[n];
    return value;
  };
}

/** The root in 0 to 1 of a function that changes sign there: false position that halves a stale end, to 1e-13. */
export function rootBetween(f: (share: number) => number): number {
  let [low, high, atLow, atHigh] = [0, 1, f(0), f(1)];
  let stale = 0;
  for (let round = 0; round < 100 && high - low > 1e-13; round++) {
    const share = (low * atHigh - high * atLow) / (atHigh - atLow);
    const middle = share > low && share < high ? share : 0.5 * (low + high);
    const value = f(middle);
    if (value === 0) return middle;
    if (value < 0 === atLow < 0) {
      [low, atLow] = [middle, value];
      if (stale === -1) atHigh *= 0.5;
      stale = -1;
    } else {
      [high, atHigh] = [middle, value];
      if (stale === 1) atLow *= 0.5;
      stale = 1;
    }
  }
  return 0.5 * (low + high);
}

export interface Crossing {
  readonly frequency: number; // rad/s
  readonly re: number;
  readonly im: number;
  /** Whether the function that is zero here rises with frequency. */
  readonly rising: boolean;
}

// Two loops written out: they visit every point of a grid, grid after grid, and a function between them would cost more than
// what they do.

/** Real parts between which a crossing lies. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * All points where the response meets the real axis, by rising frequency; the last point of the grid is none of them
 * where it is real anyway (`closes`). Those whose real part can only lie outside `wanted` are left out: they cost more to find
 * than the rest to read.
 */
export function realCrossings(
  grid: Float64Array,
  response: ComplexArray,
  closes: boolean,
  wanted: Span = EVERYWHERE,
): Crossing[] {
  const { im } = response;
  const inside = closes ? grid.length - 1 : grid.length;
  const found: Crossing[] = [];
  for (let k = 0; k + 1 < inside; k++) {
    if (im[k] < 0 === im[k + 1] < 0) continue;
    const near = roughSpan(response, inside, k);
    if (near.to < wanted.from || near.from > wanted.to) continue;
    found.push(crossing(grid, response, inside, k, (_, y) => y));
  }
  return found;
}

const EVERYWHERE: Span = Object.freeze({ from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY });

/**
 * How often the response passes the real axis left of -1 with the imaginary part rising, less how often with it falling; as
 * realCrossings has it, which is asked only where that is not plain from the points around.
 */
export function passagesLeft(grid: Float64Array, response: ComplexArray, closes: boolean): number {
  const { im } = response;
  const inside = closes ? grid.length - 1 : grid.length;
  let passages = 0;
  for (let k = 0; k + 1 < inside; k++) {
    if (im[k] < 0 === im[k + 1] < 0) continue;
    const near = roughSpan(response, inside, k);
    const left = near.to < -1 || (near.from < -1 && crossing(grid, response, inside, k, (_, y) => y).re < -1);
    if (left) passages += im[k + 1] >= 0 ? 1 : -1;
  }
  return passages;
}

/**
 * Where the real part between k and k + 1 lies for certain, on grids that follow the response: the four points around, and as much
 * again as they differ by to either side. The polynomial through six of them leaves them by a small share of that.
 */
function roughSpan({ re }: ComplexArray, count: number, k: number): Span {
  let [low, high] = [re[k], re[k]];
  for (let at = Math.max(0, k - 1); at < Math.min(count, k + 3); at++) {
    low = Math.min(low, re[at]);
    high = Math.max(high, re[at]);
  }
  return { from: low - (high - low), to: high + (high - low) };
}

/** All points where the response meets the unit circle. */
export function unitCrossings(grid: Float64Array, response: ComplexArray): Crossing[] {
  const { re, im } = response;
  const found: Crossing[] = [];
  let before = re[0] * re[0] + im[0] * im[0] < 1;
  for (let k = 0; k + 1 < grid.length; k++) {
    const after = re[k + 1] * re[k + 1] + im[k + 1] * im[k + 1] < 1;
    if (before !== after) found.push(crossing(grid, response, grid.length, k, (x, y) => x * x + y * y - 1));
    before = after;
  }
  return found;
}

/** Where `level` is zero between k and k + 1; points from `count` on are none to draw a curve through. */
function crossing(
  frequencies: Float64Array,
  response: ComplexArray,
  count: number,
  k: number,
  level: (re: number, im: number) => number,
): Crossing {
  const [grid, re, im] = [frequencies, response.re, response.im].map((values) => values.subarray(0, count));
  const [x, y] = [between(grid, re, k), between(grid, im, k)];
  const share = rootBetween((s) => level(x(s), y(s)));
  const frequency = grid[k] + share * (grid[k + 1] - grid[k]);
  return { frequency, re: x(share), im: y(share), rising: level(re[k + 1], im[k + 1]) >= 0 };
}
