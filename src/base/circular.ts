// sin and cos after fdlibm's k_sin.c, k_cos.c and e_rem_pio2.c, whose notice reads:
// "Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Permission to use, copy,
// modify, and distribute this software is freely granted, provided that this notice is preserved."

const TWO_OVER_PI = 0.6366197723675814;
// pi/2 in pieces of 33 bits, each with what is left below it: products with a quarter-turn count are exact.
const PIECE_1 = 1.5707963267341256;
const PIECE_2 = 6.077100506303966e-11;
const BELOW_2 = 2.0222662487959506e-21;
const PIECE_3 = 2.0222662487111665e-21;
const BELOW_3 = 8.4784276603689e-32;
/** A remainder below this share of the angle has lost over 49 bits (2^-49). */
const CANCELLED = 1.7763568394002505e-15;

/** Beyond this the three pieces of pi/2 no longer carry full accuracy: 2^19 pi/2 rad. */
const LARGEST = 823549;

/** The sine of x rad within 1 ulp; NaN for no finite x, RangeError for |x| over 823549. */
export function sin(x: number): number {
  return quarter(x, 0);
}

/** The cosine of x rad within 1 ulp; NaN for no finite x, RangeError for |x| over 823549. */
export function cos(x: number): number {
  return quarter(x, 1);
}

/** sin(x + turns pi/2). */
function quarter(x: number, turns: 0 | 1): number {
  if (!Number.isFinite(x)) return NaN;
  if (Math.abs(x) > LARGEST) throw new RangeError(`${x} rad is beyond ${LARGEST}, where sine and cosine lose digits`);
  const n = Math.abs(x) <= 0.7853981633974483 ? 0 : Math.floor(x * TWO_OVER_PI + 0.5);
  let high = x - n * PIECE_1; // exact
  let piece = n * PIECE_2;
  let rest = high - piece;
  let low = n * BELOW_2 - (high - rest - piece);
  // Close to a multiple of pi/2 the digits cancel (then the subtraction above was exact): a third piece.
  if (Math.abs(rest - low) < Math.abs(x) * CANCELLED) {
    high = rest;
    piece = n * PIECE_3;
    rest = high - piece;
    low = n * BELOW_3 - (high - rest - piece);
  }
  const y = rest - low;
  const tail = rest - y - low;
  const side = (n + turns) & 3;
  const size = (side & 1) === 0 ? nearSine(y, tail) : nearCosine(y, tail);
  return side < 2 ? size : -size;
}

/** sin(x + tail) for |x| up to pi/4. */
function nearSine(x: number, tail: number): number {
  const z = x * x;
  const cube = z * x;
  const last = z * z * z * (-2.5050760253406863e-8 + z * 1.58969099521155e-10);
  const r = 8.33333333332249e-3 + z * (-1.984126982985795e-4 + z * 2.7557313707070068e-6) + last;
  return x - (z * (0.5 * tail - cube * r) - tail - cube * -0.16666666666666632);
}

/** cos(x + tail) for |x| up to pi/4. */
function nearCosine(x: number, tail: number): number {
  const z = x * x;
  const fourth = z * z;
  const first = z * (4.16666666666666e-2 + z * (-1.388888888887411e-3 + z * 2.480158728947673e-5));
  const last = -2.7557314351390663e-7 + z * (2.087572321298175e-9 + z * -1.1359647557788195e-11);
  const half = 0.5 * z;
  const w = 1 - half;
  return w + (1 - w - half + (z * (first + fourth * fourth * last) - x * tail));
}
