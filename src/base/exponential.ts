// exp and ln after fdlibm's e_exp.c and e_log.c, whose notice reads:
// "Copyright (C) 1993-2004 by Sun Microsystems, Inc. All rights reserved. Permission to use, copy,
// modify, and distribute this software is freely granted, provided that this notice is preserved."
import { highWord, scaled, withHighWord } from "./bits.js";

// ln 2 in two pieces; the first has trailing zeros, so that its product with an exponent is exact.
const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;

/** e^x within 1 ulp (0 below -745.2, Infinity above 709.8). */
export function exp(x: number): number {
  if (Number.isNaN(x)) return x;
  if (x > 709.782712893384) return Infinity;
  if (x < -745.1332191019411) return 0;
  const k = Math.floor(Math.LOG2E * x + 0.5);
  const high = x - k * LN2_HIGH;
  const low = k * LN2_LOW;
  const r = high - low;
  const c = r - evenPart(r * r);
  return scaled(1 - (low - (r * c) / (2 - c) - high), k);
}

/** The Remez polynomial of r (e^r + 1)/(e^r - 1) - 2, in t = r^2, for |r| up to ln 2 / 2. */
export function evenPart(t: number): number {
  const tail = 6.613756321437934e-5 + t * (-1.6533902205465252e-6 + t * 4.1381367970572385e-8);
  return t * (0.16666666666666602 + t * (-2.7777777777015593e-3 + t * tail));
}

/** The natural logarithm within 1 ulp (-Infinity at 0, NaN below). */
export function ln(x: number): number {
  if (!(x > 0) || x === Infinity) return x === 0 ? -Infinity : x === Infinity ? x : NaN;
  if (x < 2.2250738585072014e-308) return ln(x * 18014398509481984) - 54 * LN2_HIGH - 54 * LN2_LOW;
  // x = 2^k (1 + f) with 1 + f between sqrt(1/2) and sqrt(2)
  const lifted = highWord(x) + (0x3ff00000 - 0x3fe6a09e);
  const k = (lifted >>> 20) - 1023;
  const f = withHighWord(x, (lifted & 0xfffff) + 0x3fe6a09e) - 1;
  const s = f / (2 + f);
  const halfSquare = 0.5 * f * f;
  return s * (halfSquare + logarithmTail(s * s)) + k * LN2_LOW - halfSquare + f + k * LN2_HIGH;
}

/** The Remez polynomial of ln((1 + s)/(1 - s))/s - 2, in z = s^2. */
function logarithmTail(z: number): number {
  const w = z * z;
  const even = w * (0.3999999999940942 + w * (0.22222198432149784 + w * 0.15313837699209373));
  const last = 0.1818357216161805 + w * 0.14798198605116586;
  return z * (0.6666666666666735 + w * (0.2857142874366239 + w * last)) + even;
}
