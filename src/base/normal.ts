// The standard normal distribution's quantile: M.J. Wichura, "Algorithm AS 241: the percentage points of the normal
// distribution", Applied Statistics 37 (1988) 477-484, PPND16, relative error about 1e-16. Coefficients from memory, held
// by published quantiles in a test.
import { exp, ln } from "./elementary.js";

const CENTRE = [
  [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852854,
  ],
] as const;
const MIDDLE = [
  [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
] as const;
const TAIL = [
  [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 0.000027115555687434876, 2.0103343992922881e-7,
  ],
  [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 0.000018463183175100548,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
] as const;

/** z with the share `below` (between 0 and 1) of the distribution below it. */
export function normalQuantile(below: number): number {
  const q = below - 0.5;
  if (Math.abs(q) <= 0.425) return q * ratioOf(CENTRE, 0.180625 - q * q);
  const r = Math.sqrt(-ln(q < 0 ? below : 1 - below));
  const z = r <= 5 ? ratioOf(MIDDLE, r - 1.6) : ratioOf(TAIL, r - 5);
  return q < 0 ? -z : z;
}

function ratioOf([above, under]: readonly [readonly number[], readonly number[]], x: number): number {
  const at = (coefficients: readonly number[]) =>
    coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
  return at(above) / at(under);
}

const HALF_LN_TWO_PI = 0.9189385332046728;
/** Beyond it the share is 0 or 1 to the last bit that the series gives. */
const FARTHEST = 8;

/**
 * Share of the distribution below z, to about 1e-15: Taylor's series about 0, G. Marsaglia, "Evaluating the normal
 * distribution", Journal of Statistical Software 11 (2004) no. 4.
 */
export function normalShareBelow(z: number): number {
  if (Math.abs(z) >= FARTHEST) return z < 0 ? 0 : 1;
  let term = z;
  let sum = z;
  for (let odd = 3, before = 0; sum !== before; odd += 2) {
    before = sum;
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + sum * exp(-0.5 * z * z - HALF_LN_TWO_PI);
}
