// pow after fdlibm's e_pow.c, whose notice reads:
// "Copyright (C) 2004 by Sun Microsystems, Inc. All rights reserved. Permission to use, copy,
// modify, and distribute this software is freely granted, provided that this notice is preserved."
import { highWord, scaled, truncated, withHighWord } from "./bits.js";
import { evenPart } from "./exponential.js";

/** A number in two pieces; the first has its lower 32 bits zero. */
type Pair = readonly [high: number, low: number];

// 2/(3 ln 2), and log2(1.5), whole and in two pieces.
const SCALE = 0.9617966939259756;
const SCALE_PAIR: Pair = [0.9617967009544373, -7.028461650952758e-9];
const LOG2_OF_3_HALVES: Pair = [0.5849624872207642, 1.350039202129749e-8];
const LN2_PAIR: Pair = [0.6931471824645996, -1.904654299957768e-9];

/** x^y within 1 ulp, for finite x above 0 and finite y; otherwise RangeError. */
export function pow(x: number, y: number): number {
  if (!(x > 0) || x === Infinity || !Number.isFinite(y)) {
    throw new RangeError(`pow(${x}, ${y}): expected a finite base above 0 and a finite exponent`);
  }
  const [high, low] = log2Pair(x);
  const yHigh = truncated(y);
  const smaller = (y - yHigh) * high + y * low;
  const larger = yHigh * high;
  const sum = smaller + larger;
  if (sum >= 1024.5) return Infinity;
  if (sum < -1076) return 0;
  const exponent = Math.floor(sum + 0.5);
  return scaled(exp2([larger - exponent, smaller]), exponent);
}

/** log2 x to about 70 bits: x = 2^n m, with m near 1 or near 1.5. */
function log2Pair(x: number): Pair {
  if (x < 2.2250738585072014e-308) {
    const [high, low] = log2Pair(x * 18014398509481984);
    return [high - 54, low];
  }
  const word = highWord(x);
  const fraction = word & 0xfffff;
  const nearTwo = fraction >= 0xbb67a;
  const nearThreeHalves = !nearTwo && fraction > 0x3988e;
  const n = (word >>> 20) - 1023 + (nearTwo ? 1 : 0);
  const m = withHighWord(x, fraction | (nearTwo ? 0x3fe00000 : 0x3ff00000));
  const [high, low] = threeAtanh(m, nearThreeHalves ? 1.5 : 1);
  const offset: Pair = nearThreeHalves ? LOG2_OF_3_HALVES : [0, 0];
  const zHigh = SCALE_PAIR[0] * high;
  const zLow = SCALE_PAIR[1] * high + low * SCALE + offset[1];
  const sum = truncated(zHigh + zLow + offset[0] + n);
  return [sum, zLow - (sum - n - offset[0] - zHigh)];
}

/** (3/2) ln(m / centre) in two pieces, by its series in s = (m - centre)/(m + centre). */
function threeAtanh(m: number, centre: number): Pair {
  const u = m - centre;
  const v = 1 / (m + centre);
  const s = u * v;
  const sHigh = truncated(s);
  const sumHigh = truncated(m + centre);
  const sumLow = m - (sumHigh - centre);
  const sLow = v * (u - sHigh * sumHigh - sHigh * sumLow);
  const r = seriesTail(s * s) + sLow * (sHigh + s);
  const square = sHigh * sHigh;
  const factorHigh = truncated(3 + square + r);
  const factorLow = r - (factorHigh - 3 - square);
  const main = sHigh * factorHigh;
  const rest = sLow * factorHigh + factorLow * s;
  const high = truncated(main + rest);
  return [high, rest - (high - main)];
}

/** The Remez polynomial of (3/2) ln((1 + s)/(1 - s))/s - 3 - z, in z = s^2. */
function seriesTail(z: number): number {
  const last = 0.272728123808534 + z * (0.23066074577556175 + z * 0.20697501780033842);
  return z * z * (0.5999999999999946 + z * (0.4285714285785502 + z * (0.33333332981837743 + z * last)));
}

/** 2^x for |x| up to 1/2 in two pieces. */
function exp2([high, low]: Pair): number {
  const t = truncated(low + high);
  const main = t * LN2_PAIR[0];
  const rest = (low - (t - high)) * Math.LN2 + t * LN2_PAIR[1];
  const z = main + rest;
  const w = rest - (z - main);
  const c = z - evenPart(z * z);
  return 1 - ((z * c) / (c - 2) - (w + z * w) - z);
}
