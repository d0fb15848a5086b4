// Student's t: what a normal quantile becomes where the deviation itself is told from few observations.

const NORMAL = 1.959963985; // the 97.5 % quantile

/**
 * The 97.5 % quantile of Student's t by its expansion at the normal one (Abramowitz and Stegun, Handbook of Mathematical
 * Functions, 26.7.5): within 1 % from two degrees of freedom up.
 */
export function studentQuantile(freedom: number): number {
  const z = NORMAL;
  const z2 = z * z;
  const [z3, z5, z7, z9] = [z * z2, z * z2 * z2, z * z2 * z2 * z2, z * z2 * z2 * z2 * z2];
  const terms = [
    (z3 + z) / 4,
    (5 * z5 + 16 * z3 + 3 * z) / 96,
    (3 * z7 + 19 * z5 + 17 * z3 - 15 * z) / 384,
    (79 * z9 + 776 * z7 + 1482 * z5 - 1920 * z3 - 945 * z) / 92160,
  ];
  return terms.reduceRight((sum, term) => (sum + term) / freedom, 0) + z;
}
