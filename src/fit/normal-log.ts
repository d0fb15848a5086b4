// How likely a standard normal number lies below x, as a logarithm that keeps its digits far out. Series and continued
// fraction of M. Abramowitz and I.A. Stegun, Handbook of Mathematical Functions (1964), 26.2.10 and 26.2.14.
import { exp, ln } from "../base/elementary.js";

const LN_ROOT_2PI = 0.9189385332046727;
/** Below it the continued fraction is the quicker of the two. */
const TAIL = -4;
const TERMS = 120;

/** ln of the standard normal distribution function; relative error about 1e-12 from -30 up. */
export function lnNormalBelow(x: number): number {
  if (x > -TAIL) return -tail(x);
  if (x < TAIL) return ln(tail(-x));
  let term = x;
  let sum = x;
  for (let k = 1; k < TERMS; k++) {
    term *= (x * x) / (2 * k + 1);
    sum += term;
  }
  return ln(0.5 + sum * exp(-0.5 * x * x - LN_ROOT_2PI));
}

/** 1/(x + 1/(x + 2/(x + 3/...))) times the density, from the far end: what lies above a large x. */
function tail(x: number): number {
  let below = x;
  for (let k = TERMS; k > 0; k--) below = x + k / below;
  return exp(-0.5 * x * x - LN_ROOT_2PI) / below;
}
