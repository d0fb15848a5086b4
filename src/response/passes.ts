// Passes over the samples of a trace: what many samples are reduced to few numbers by. Like the kernel's loop these are the only
// description of what is summed, and the vector kernel has them translated (see translator); they keep to the same dialect.
import {
  type Index,
  maximum,
  minimum,
  type UniformMemory,
  type Varying,
  type VaryingMemory,
} from "../base/lane-numbers.js";
import * as m from "./sums.js";

/**
 * Half the width of the narrowest straight strip that holds trace[from, to), found in so many iterations. Given HALF_LENGTH and SPREAD; leaves HALF_SWING.
 * The width is a convex function of the strip's slope, and its derivative lies in the places of the extremes: where the
 * tangents on both sides of the least cross is the next slope (J.E. Kelley, J. SIAM 8 (1960) 703-712; from memory).
 */
export function swing(sums: VaryingMemory, trace: VaryingMemory, from: Index, to: Index, iterations: Index): void {
  let place: Varying = -sums[m.CENTRE_INDEX];
  let moment: Varying = 0;
  for (let k: Index = from; k < to; k++) {
    moment += place * trace[k];
    place += 1;
  }
  let slope: Varying = moment / sums[m.SPREAD];
  let narrowest: Varying = 1e300;
  // The nearest slope on either side of the least, the width there and its derivative: 0 as long as there is none.
  let slopeBelow: Varying = 0;
  let widthBelow: Varying = 0;
  let fall: Varying = 0;
  let slopeAbove: Varying = 0;
  let widthAbove: Varying = 0;
  let climb: Varying = 0;
  for (let iteration: Index = 0; iteration < iterations; iteration++) {
    let since: Varying = 0;
    let low: Varying = trace[from];
    let high: Varying = low;
    let lowAt: Varying = 0;
    let highAt: Varying = 0;
    for (let k: Index = from; k < to; k++) {
      const value: Varying = trace[k] - slope * since;
      lowAt = value < low ? since : lowAt;
      highAt = value > high ? since : highAt;
      low = minimum(low, value);
      high = maximum(high, value);
      since += 1;
    }
    const width: Varying = high - low;
    const derivative: Varying = lowAt - highAt;
    narrowest = minimum(narrowest, width);
    slopeBelow = derivative < 0 ? slope : slopeBelow;
    widthBelow = derivative < 0 ? width : widthBelow;
    fall = derivative < 0 ? derivative : fall;
    slopeAbove = derivative > 0 ? slope : slopeAbove;
    widthAbove = derivative > 0 ? width : widthAbove;
    climb = derivative > 0 ? derivative : climb;
    const crossing: Varying =
      slopeBelow + (widthAbove - widthBelow + climb * (slopeBelow - slopeAbove)) / (fall - climb);
    const further: Varying = slopeBelow - (0.25 * widthBelow) / fall;
    const back: Varying = slopeAbove - (0.25 * widthAbove) / climb;
    slope = fall < 0 ? (climb > 0 ? crossing : further) : climb > 0 ? back : slope;
  }
  sums[m.HALF_SWING] = 0.5 * narrowest;
}

/**
 * Leaves the LARGEST_DEVIATION that the errors against what was commanded in [from, to) add up to, and the LAST_BEYOND a tenth of
 * the largest of them and QUIET, which is given.
 */
export function kick(command: UniformMemory, sums: VaryingMemory, trace: VaryingMemory, from: Index, to: Index): void {
  let before: Varying = trace[from] - command[from];
  let low: Varying = before;
  let high: Varying = before;
  let deviation: Varying = 0;
  let least: Varying = 0;
  let most: Varying = 0;
  for (let k: Index = from + 1; k < to; k++) {
    const error: Varying = trace[k] - command[k];
    deviation += before + error;
    before = error;
    low = minimum(low, error);
    high = maximum(high, error);
    least = minimum(least, deviation);
    most = maximum(most, deviation);
  }
  sums[m.LARGEST_DEVIATION] = maximum(-least, most); // the other way about, none would be -0
  const band: Varying = maximum(0.1 * maximum(-low, high), sums[m.QUIET]);
  let place: Varying = 0;
  let last: Varying = 0;
  for (let k: Index = from + 1; k < to; k++) {
    const error: Varying = trace[k] - command[k];
    place += 1;
    last = maximum(error, -error) > band ? place : last;
  }
  sums[m.LAST_BEYOND] = last;
}

/**
 * Squares of the deviation in [from, to) about its own straight line, and sums of the errors. Given COUNT, HALF_LENGTH
 * and SPREAD; leaves DEVIATION_SQUARES, ERROR_SUM and ERROR_SQUARES.
 */
export function wobble(
  command: UniformMemory,
  sums: VaryingMemory,
  trace: VaryingMemory,
  from: Index,
  to: Index,
): void {
  const first: Varying = trace[from] - command[from];
  let before: Varying = first;
  let errors: Varying = first;
  let squares: Varying = first * first;
  let deviation: Varying = 0;
  let sum: Varying = 0;
  let moment: Varying = 0;
  let place: Varying = -sums[m.CENTRE_INDEX];
  for (let k: Index = from + 1; k < to; k++) {
    const error: Varying = trace[k] - command[k];
    deviation += before + error;
    before = error;
    place += 1;
    errors += error;
    squares += error * error;
    sum += deviation;
    moment += place * deviation;
  }
  sums[m.ERROR_SUM] = errors;
  sums[m.ERROR_SQUARES] = squares;
  const mean: Varying = sum / sums[m.COUNT];
  const slope: Varying = moment / sums[m.SPREAD];
  place = -sums[m.CENTRE_INDEX];
  let off: Varying = -(mean + slope * place);
  let about: Varying = off * off;
  before = first;
  deviation = 0;
  for (let k: Index = from + 1; k < to; k++) {
    const error: Varying = trace[k] - command[k];
    deviation += before + error;
    before = error;
    place += 1;
    off = deviation - (mean + slope * place);
    about += off * off;
  }
  sums[m.DEVIATION_SQUARES] = about;
}

/**
 * Weighted squares of the changes from sample to sample, over as many from `from` and from `again` on; leaves EARLY_ENERGY
 * and LATE_ENERGY.
 */
export function energies(
  weights: UniformMemory,
  sums: VaryingMemory,
  trace: VaryingMemory,
  from: Index,
  secondFrom: Index,
  count: Index,
): void {
  let before: Varying = trace[from];
  let secondBefore: Varying = trace[secondFrom];
  let early: Varying = 0;
  let late: Varying = 0;
  for (let k: Index = 0; k < count; k++) {
    const now: Varying = trace[from + k + 1];
    const secondNow: Varying = trace[secondFrom + k + 1];
    const change: Varying = now - before;
    const secondChange: Varying = secondNow - secondBefore;
    before = now;
    secondBefore = secondNow;
    early += weights[k] * (change * change);
    late += weights[k] * (secondChange * secondChange);
  }
  sums[m.EARLY_ENERGY] = early;
  sums[m.LATE_ENERGY] = late;
}

/**
 * Passages of the change from sample to sample in [from, to) through 0, each counted only once the change has gone beyond a
 * `share` of the largest on the other side, as passages.ts counts them; leaves PASSAGES and the places of three of them.
 */
export function ring(share: UniformMemory, sums: VaryingMemory, trace: VaryingMemory, from: Index, to: Index): void {
  let before: Varying = trace[from];
  let largest: Varying = 0;
  for (let k: Index = from + 1; k < to; k++) {
    const now: Varying = trace[k];
    const change: Varying = now - before;
    before = now;
    largest = maximum(largest, maximum(change, -change));
  }
  const threshold: Varying = share[0] * largest;
  before = trace[from];
  let place: Varying = 0;
  let side: Varying = 0; // beyond the threshold last: 1 above, -1 below, 0 nowhere yet
  let sign: Varying = 0;
  let turn: Varying = 0; // where the sign became what it is
  let count: Varying = 0;
  let first: Varying = 0;
  let beforeLast: Varying = 0;
  let last: Varying = 0;
  for (let k: Index = from + 1; k < to; k++) {
    const now: Varying = trace[k];
    const change: Varying = now - before;
    before = now;
    const signNow: Varying = change > 0 ? 1 : -1;
    turn = signNow * sign < 0 ? place : turn;
    sign = signNow;
    const beyond: Varying = change > threshold ? 1 : change < -threshold ? -1 : 0;
    const passes: Varying = beyond * side;
    beforeLast = passes < 0 ? last : beforeLast;
    last = passes < 0 ? turn : last;
    first = count < 1 ? last : first;
    count += passes < 0 ? 1 : 0;
    side = beyond * beyond > 0 ? beyond : side;
    place += 1;
  }
  sums[m.PASSAGES] = count;
  sums[m.FIRST_PASSAGE] = first;
  sums[m.PASSAGE_BEFORE_LAST] = beforeLast;
  sums[m.LAST_PASSAGE] = last;
}
