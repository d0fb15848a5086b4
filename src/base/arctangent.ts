// atan2 after fdlibm's s_atan.c, whose notice reads:
// "Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Permission to use, copy,
// modify, and distribute this software is freely granted, provided that this notice is preserved."

/** atan at 0.5, 1, 1.5 and infinity: upper and lower part. */
const HIGH = [4.63647609000806093515e-1, 7.85398163397448278999e-1, 9.82793723247329054082e-1, 1.57079632679489655800];
const LOW = [2.26987774529616870924e-17, 3.06161699786838301793e-17, 1.39033110312309984516e-17, 6.12323399573676603587e-17];
const ODD = [
  3.33333333333329318027e-1, 1.42857142725034663711e-1, 9.09088713343650656196e-2, 6.66107313738753120669e-2,
  4.97687799461593236017e-2, 1.62858201153657823623e-2,
];
const EVEN = [
  -1.99999999998764832476e-1, -1.11111104054623557880e-1, -7.69187620504482999495e-2, -5.83357013379057348645e-2,
  -3.65315727442169155270e-2,
];

/** The angle of the point (x, y), rad, from -pi to pi, within 2 ulp; NaN where either is none. */
export function atan2(y: number, x: number): number {
  if (x === 0 && y === 0) return 0;
  const size = Math.abs(y) > Math.abs(x) * 1e300 ? HIGH[3] : atan(Math.abs(y / x));
  const angle = x < 0 ? Math.PI - (size - 1.2246467991473532e-16) : size;
  return y < 0 ? -angle : angle;
}

/** atan of a number that is not negative. */
function atan(x: number): number {
  if (x < 0.4375) return x - x * series(x);
  const [place, y] =
    x < 0.6875
      ? [0, (2 * x - 1) / (2 + x)]
      : x < 1.1875
        ? [1, (x - 1) / (x + 1)]
        : x < 2.4375
          ? [2, (x - 1.5) / (1 + 1.5 * x)]
          : [3, -1 / x];
  return HIGH[place] - (y * series(y) - LOW[place] - y);
}

function series(y: number): number {
  const z = y * y;
  const w = z * z;
  const odd = z * ODD.reduceRight((sum, term) => term + w * sum, 0);
  const even = w * EVEN.reduceRight((sum, term) => term + w * sum, 0);
  return odd + even;
}
