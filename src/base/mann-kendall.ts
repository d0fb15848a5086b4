// Does a sequence rise or fall, however crookedly? The test of H.B. Mann (Econometrica 13 (1945) 245-259) and M.G. Kendall (Rank
// Correlation Methods, 4th ed. 1975), with Kendall's exact distribution for short sequences without ties, and P.K. Sen's slope
// (Journal of the American Statistical Association 63 (1968) 1379-1389). From memory, held by Kendall's table in a test.
import { at } from "./at.js";
import { normalShareBelow } from "./normal.js";

/** Longer sequences, and those with ties, are judged by the normal distribution. */
const LONGEST_EXACT = 40;

export interface MonotoneTrend {
  /** Kendall's S: pairs that rise less pairs that fall. */
  readonly score: number;
  /** Probability of a score at least as far from 0, either way, where nothing but chance orders the values. */
  readonly chance: number;
  /** Median slope of all pairs, per place of the sequence (Sen). */
  readonly slope: number;
}

/** The test over values in their order. RangeError for fewer than three. */
export function mannKendall(values: readonly number[]): MonotoneTrend {
  const count = values.length;
  if (count < 3) throw new RangeError(`${count} values say nothing of a trend`);
  const slopes: number[] = [];
  let score = 0;
  for (let later = 1; later < count; later++)
    for (let earlier = 0; earlier < later; earlier++) {
      const rise = at(values, later) - at(values, earlier);
      score += Math.sign(rise);
      slopes.push(rise / (later - earlier));
    }
  const ties = tiesIn(values);
  const exact = ties.length === 0 && count <= LONGEST_EXACT;
  return { score, chance: exact ? exactChance(count, score) : normalChance(count, score, ties), slope: median(slopes) };
}

/** Sizes of the groups of equal values. */
function tiesIn(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts.values()].filter((size) => size > 1);
}

/** Share of all orders of `count` different values whose score lies as far out, counted by Kendall's recursion. */
function exactChance(count: number, score: number): number {
  let shares = [1]; // of orders with k falling pairs
  for (let n = 2; n <= count; n++) {
    const before = shares;
    shares = Array.from({ length: before.length + n - 1 }, (_, k) => {
      let sum = 0;
      for (let falls = 0; falls < n; falls++) sum += before[k - falls] ?? 0;
      return sum / n;
    });
  }
  const pairs = (count * (count - 1)) / 2;
  const fewestFalls = (pairs - Math.abs(score)) / 2;
  const tail = shares.slice(0, fewestFalls + 1).reduce((sum, share) => sum + share, 0);
  return Math.min(1, 2 * tail);
}

/** Variance with ties and the correction for continuity, as Kendall gives them. */
function normalChance(count: number, score: number, ties: readonly number[]): number {
  const spread = (n: number) => n * (n - 1) * (2 * n + 5);
  const variance = (spread(count) - ties.reduce((sum, size) => sum + spread(size), 0)) / 18;
  if (variance === 0 || score === 0) return 1;
  const z = (Math.abs(score) - 1) / Math.sqrt(variance);
  return 2 * (1 - normalShareBelow(z));
}

function median(values: readonly number[]): number {
  const rising = [...values].sort((a, b) => a - b);
  const middle = rising.length >> 1;
  return rising.length % 2 === 1 ? at(rising, middle) : (at(rising, middle - 1) + at(rising, middle)) / 2;
}
