// atan2 after fdlibm's s_atan.c, whose notice reads:
// "Copyright (C) 1993 by Sun Microsystems, Inc. All rights reserved. Permission to use, copy,
// modify, and distribute this software is freely granted, provided that this notice is preserved."

/** atan at 0.5, 1, 1.5 and infinity: upper and lower part. */
const HIGH = [0.4636476090008061, 0.7853981633974483, 0.982793723247329, 1.5707963267948966] as const;
const LOW = [2.2698777452961687e-17, 3.061616997868383e-17, 1.3903311031230998e-17, 6.123233995736766e-17] as const;
const ODD = [
  0.3333333333333293, 0.14285714272503466, 0.09090887133436507, 0.06661073137387531, 0.049768779946159324,
  0.016285820115365782,
];
const EVEN = [
  -0.19999999999876483, -0.11111110405462356, -0.0769187620504483, -0.058335701337905735, -0.036531572744216916,
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
  const [place, y]: readonly [0 | 1 | 2 | 3, number] =
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
