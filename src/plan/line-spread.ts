// So many lines of a gain over a range: some as dense as a weight says, the rest in steps that widen with distance.
import { at, last } from "../base/at.js";
import { chosenValues, roundedDown, roundedUp, roundValues } from "./line-choice.js";

/** A weight along a gain, straight between its nodes and 0 beyond them. */
export interface Weights {
  readonly node: readonly number[];
  readonly weight: readonly number[];
}

/**
 * `count` values from the first to the last of `wanted`, rounded outwards, one near each in between; `focus` is the share of
 * them that follows the weight.
 */
export function spreadLine(weights: Weights, wanted: readonly number[], count: number, focus: number): number[] {
  const [from, to] = [at(wanted, 0), last(wanted)];
  const all = candidates(from, to, count);
  const safe = all.map((value, k) => weightAt(weights, value) * width(all, k));
  const sumSafe = total(safe);
  const middle = sumSafe === 0 ? to * MIDDLE : total(all.map((value, k) => value * at(safe, k))) / sumSafe;
  // Steps widen with the gain, as factors do: contours far from safe ground need to be seen, not measured.
  const wide = (value: number) => 1 / (value + middle);
  const near = safe.map((weight, k) => weight * wide(at(all, k)));
  const rest = all.map((value, k) => width(all, k) * wide(value));
  const [sumNear, sumRest] = [total(near), total(rest)];
  const share = sumNear === 0 ? 0 : focus;
  const combined = all.map(
    (_, k) => (share === 0 ? 0 : (share * at(near, k)) / sumNear) + ((1 - share) * at(rest, k)) / sumRest,
  );
  return chosenValues(all, combined, count, [
    0,
    ...wanted.slice(1, -1).map((value) => nearestTo(all, value)),
    all.length - 1,
  ]);
}

const nearestTo = (values: readonly number[], value: number): number =>
  values.reduce((best, one, k) => (Math.abs(one - value) < Math.abs(at(values, best) - value) ? k : best), 0);

const MIDDLE = 0.25; // of the range, where nothing is safe
const DIGITS = 2;
/** Values to choose from per line; with fewer there is no choice, and a digit more is needed. */
const CHOICE = 1.5;
const LEAST_SHARE = 0.01; // of the last value: the least above 0

function candidates(from: number, to: number, count: number): number[] {
  for (let digits = DIGITS; ; digits++) {
    const least = from === 0 ? LEAST_SHARE * to : from;
    const values = roundValues(roundedDown(least, digits), roundedUp(to, digits), digits);
    const all = from === 0 ? [0, ...values] : values;
    if (all.length >= CHOICE * count) return all;
  }
}

function weightAt({ node, weight }: Weights, value: number): number {
  const after = node.findIndex((one) => one >= value);
  if (after < 0 || value < at(node, 0)) return 0;
  if (after === 0) return at(weight, 0);
  const [left, right] = [at(node, after - 1), at(node, after)];
  const [low, high] = [at(weight, after - 1), at(weight, after)];
  return low + ((value - left) / (right - left)) * (high - low);
}

/** About one of the values. */
const width = (line: readonly number[], k: number): number =>
  0.5 * (at(line, Math.min(k + 1, line.length - 1)) - at(line, Math.max(k - 1, 0)));

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
