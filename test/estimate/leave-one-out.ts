// Each published propeller estimated from the others: how many lie within their spreads. A propeller that was measured
// on hubs for two, three and four blades is left out whole.
import { staticCoefficients } from "../../src/estimate/propeller.js";
import { PROPELLER_ROWS } from "../../src/estimate/propeller-rows.js";

export interface LeftOut {
  /** ln of measured over estimated, as a share of ln(1 + spread): within the spread from -1 to 1. */
  readonly ct: number;
  readonly cp: number;
}

export const leftOut = (): LeftOut[] =>
  PROPELLER_ROWS.map((row) => {
    const others = PROPELLER_ROWS.filter(({ blade }) => blade !== row.blade);
    const estimate = staticCoefficients(row, others);
    const off = (of: "ct" | "cp") => Math.log(row[of] / estimate[of].value) / Math.log(1 + estimate[of].spread);
    return { ct: off("ct"), cp: off("cp") };
  });

/** How many of both coefficients lie within this share of their spread. */
export const within = (share: number): number =>
  leftOut().reduce((sum, { ct, cp }) => sum + Number(Math.abs(ct) <= share) + Number(Math.abs(cp) <= share), 0);

/** The least and the most of `count` that lie within, but for `tail` at either end, where each does with this probability. */
export function binomialBounds(
  count: number,
  probability: number,
  tail = 0.025,
): readonly [least: number, most: number] {
  const shares: number[] = [];
  let share = (1 - probability) ** count;
  for (let k = 0; k <= count; k++) {
    shares.push(share);
    share *= ((count - k) / (k + 1)) * (probability / (1 - probability));
  }
  let below = 0;
  let least = 0;
  while (below + (shares[least] ?? 0) < tail) below += shares[least++] ?? 0;
  let above = 0;
  let most = count;
  while (above + (shares[most] ?? 0) < tail) above += shares[most--] ?? 0;
  return [least, most];
}
