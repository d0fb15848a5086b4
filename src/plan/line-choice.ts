// Lines of a gain where they are wanted: so many of all values of two digits, as dense as a weight says.
import { at } from "../base/at.js";

/** Values of this many digits from `from` to `to`, rising; both positive, and both such values. */
export function roundValues(from: number, to: number, digits: number): number[] {
  const found: number[] = [];
  for (let value = from; value <= to; value = next(value, digits)) found.push(value);
  return found;
}

/** The next value of this many digits. */
function next(value: number, digits: number): number {
  const [mantissa = "", exponent = "0"] = value.toExponential(digits - 1).split("e");
  const whole = Number(mantissa.replace(".", "")) + 1;
  return Number(`${whole}e${Number(exponent) - digits + 1}`);
}

export const roundedDown = (value: number, digits: number): number => {
  const near = Number(value.toPrecision(digits));
  return near <= value ? near : before(near, digits);
};

export const roundedUp = (value: number, digits: number): number => {
  const near = Number(value.toPrecision(digits));
  return near >= value ? near : next(near, digits);
};

function before(value: number, digits: number): number {
  const [mantissa = "", exponent = "0"] = value.toExponential(digits - 1).split("e");
  const whole = Number(mantissa.replace(".", "")) - 1;
  // below 1.0 come 0.99 and so on: a digit more
  return whole < 10 ** (digits - 1)
    ? Number(`${10 ** digits - 1}e${Number(exponent) - digits}`)
    : Number(`${whole}e${Number(exponent) - digits + 1}`);
}

/**
 * `count` of the values, those at the places of `needed` among them, as dense as the weights say. Each is taken once, so that where a
 * weight asks for more than there are, all are taken and the rest goes elsewhere (systematic selection with unequal
 * probabilities: Cochran, Sampling Techniques, from memory).
 */
export function chosenValues(
  values: readonly number[],
  weights: readonly number[],
  count: number,
  needed: readonly number[],
): number[] {
  if (values.length <= count) return [...values];
  const places = new Set(needed);
  const free = weights.filter((_, k) => !places.has(k));
  const scale = scaleFor(free, count - places.size);
  let [passed, taken] = [0, 0];
  return values.filter((_, k) => {
    passed += places.has(k) ? 1 : Math.min(1, scale * at(weights, k));
    if (passed < taken + 0.5) return false;
    taken++;
    return true;
  });
}

/** The factor with which the weights, none above 1, sum to `count`. */
function scaleFor(weights: readonly number[], count: number): number {
  let open = [...weights].sort((a, b) => b - a);
  let left = count;
  // The heaviest that reach 1 are set aside, one after the other.
  for (let sum = total(open); open.length > left && at(open, 0) * left > sum; sum = total(open)) {
    open = open.slice(1);
    left--;
  }
  return left / total(open);
}

const total = (weights: readonly number[]): number => weights.reduce((sum, weight) => sum + weight, 0);
