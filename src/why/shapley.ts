// How much of a move is each player's: L.S. Shapley, "A value for n-person games", Contributions to the Theory of Games II (1953).
// A player's share is what it adds to those that are there already, averaged over every order in which all of them can come.
import { at } from "../base/at.js";
import { shuffled, stream } from "../base/random.js";

/** Who is there, by place. */
export type Coalition = readonly boolean[];

/** Worth of a coalition in each of several measures. */
export type Worth = (coalition: Coalition) => readonly number[];

export interface Shares {
  /** [player][measure]; over all players they add up to what all are worth more than none. */
  readonly shares: readonly (readonly number[])[];
  /** Of 100 such shares 95 lie within this of the exact ones, [player][measure]; null: they are exact. */
  readonly errors: readonly (readonly number[])[] | null;
  /** Orders that were looked at; null: all. */
  readonly orders: number | null;
}

/** Up to so many players every coalition is looked at: 1024 of them. */
export const MOST_EXACT = 10;
const PAIRS = 40; // of an order and its reverse

export const sharesOf = (players: number, worth: Worth): Shares =>
  players <= MOST_EXACT ? exactShares(players, worth) : sampledShares(players, worth);

/** Every coalition. */
export function exactShares(players: number, worth: Worth): Shares {
  const worths = Array.from({ length: 2 ** players }, (_, mask) => worth(coalitionOf(players, mask)));
  const weights = weightsFor(players);
  const shares = Array.from({ length: players }, (_, player) => {
    const sums = at(worths, 0).map(() => 0);
    for (const [mask, without] of worths.entries()) {
      if (mask & (1 << player)) continue;
      const gained = minus(at(worths, mask | (1 << player)), without);
      const weight = at(weights, sizeOf(mask));
      gained.forEach((one, k) => {
        sums[k] = at(sums, k) + weight * one;
      });
    }
    return sums;
  });
  return { shares, errors: null, orders: null };
}

const coalitionOf = (players: number, mask: number): Coalition =>
  Array.from({ length: players }, (_, player) => (mask & (1 << player)) !== 0);

function sizeOf(mask: number): number {
  let size = 0;
  for (let rest = mask; rest > 0; rest &= rest - 1) size++;
  return size;
}

/** s! (n - s - 1)! / n!, by the size s of the coalition that a player joins. */
function weightsFor(players: number): number[] {
  const weights = [1 / players];
  for (let size = 1; size < players; size++) weights.push((at(weights, size - 1) * size) / (players - size));
  return weights;
}

/**
 * Orders drawn by chance, each with its reverse: who comes late in one comes early in the other, so that much of the scatter
 * cancels. The error is twice the standard error over the pairs.
 */
export function sampledShares(players: number, worth: Worth, pairs = PAIRS): Shares {
  const source = stream("why", players, pairs);
  const everyone = Array.from({ length: players }, (_, player) => player);
  const found = new Map<string, readonly number[]>();
  const worthOnce: Worth = (coalition) => {
    const key = coalition.map(Number).join("");
    const known = found.get(key) ?? worth(coalition);
    found.set(key, known);
    return known;
  };
  const samples = Array.from({ length: pairs }, () => {
    const order = shuffled(everyone, source);
    const [there, back] = [order, [...order].reverse()].map((one) => marginals(one, worthOnce));
    return everyone.map((player) => plus(at(there ?? [], player), at(back ?? [], player)).map((sum) => sum / 2));
  });
  const shares = everyone.map((player) => mean(samples.map((sample) => at(sample, player))));
  const errors = everyone.map((player) =>
    at(shares, player).map((share, k) => {
      const squares = samples.map((sample) => (at(at(sample, player), k) - share) ** 2);
      return 2 * Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / (pairs * (pairs - 1)));
    }),
  );
  return { shares, errors, orders: 2 * pairs };
}

/** What each player adds as it comes, [player][measure]. */
function marginals(order: readonly number[], worth: Worth): (readonly number[])[] {
  const there = order.map(() => false);
  const added: (readonly number[])[] = order.map(() => []);
  let before = worth([...there]);
  for (const player of order) {
    there[player] = true;
    const after = worth([...there]);
    added[player] = minus(after, before);
    before = after;
  }
  return added;
}

const minus = (one: readonly number[], other: readonly number[]): number[] => one.map((x, k) => x - at(other, k));
const plus = (one: readonly number[], other: readonly number[]): number[] => one.map((x, k) => x + at(other, k));

const mean = (rows: readonly (readonly number[])[]): number[] =>
  rows
    .reduce<readonly number[]>(
      (sum, row) => plus(sum, row),
      at(rows, 0).map(() => 0),
    )
    .map((sum) => sum / rows.length);
