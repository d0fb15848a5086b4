// Shares of a game: against values that others have published, and against the axioms that define them.
import { describe, expect, it } from "vitest";
import { at } from "../../src/base/at.js";
import { stream, uniform } from "../../src/base/random.js";
import { type Coalition, exactShares, MOST_EXACT, sampledShares, sharesOf, type Worth } from "../../src/why/shapley.js";

const countOf = (coalition: Coalition, from = 0, to = coalition.length): number =>
  coalition.slice(from, to).filter(Boolean).length;

const firstOf = (shares: readonly (readonly number[])[]): number[] => shares.map((share) => at(share, 0));

/** Any game: a worth for every coalition by chance, none for nobody. */
function gameByChance(players: number, seed: number): Worth {
  const source = stream("a game by chance", seed);
  const worths = Array.from({ length: 2 ** players }, (_, mask) => (mask === 0 ? 0 : uniform(source) - 0.5));
  return (coalition) => [
    at(
      worths,
      coalition.reduce((mask, there, k) => mask + (there ? 2 ** k : 0), 0),
    ),
  ];
}

describe("exact shares", () => {
  // A left glove and two right ones, a pair is worth 1: M.J. Osborne and A. Rubinstein, A Course in Game Theory (1994), ch. 14.
  it("of the owners of three gloves are 2/3, 1/6 and 1/6", () => {
    const pairs: Worth = ([left, ...right]) => [left === true && right.includes(true) ? 1 : 0];
    const shares = firstOf(exactShares(3, pairs).shares);
    for (const [k, wanted] of [2 / 3, 1 / 6, 1 / 6].entries()) expect(shares[k]).toBeCloseTo(wanted, 14);
  });

  // S.C. Littlechild and G. Owen, "A simple expression for the Shapley value in a special case", Management Science 20 (1973):
  // a runway costs as much as the longest that anybody needs; each length is paid by all who need it, alike.
  it("of the cost of a runway are those of a published formula", () => {
    const costs = [1, 3, 4, 9];
    const runway: Worth = (coalition) => [Math.max(0, ...costs.filter((_, k) => coalition[k]))];
    const wanted = [1 / 4, 1 / 4 + 2 / 3, 1 / 4 + 2 / 3 + 1 / 2, 1 / 4 + 2 / 3 + 1 / 2 + 5];
    const shares = firstOf(exactShares(4, runway).shares);
    for (const [k, one] of wanted.entries()) expect(shares[k]).toBeCloseTo(one, 13);
  });

  // The axioms: L.S. Shapley (1953), reprinted in A.E. Roth (ed.), The Shapley Value (1988), ch. 2.
  it("add up to what all are worth more than none", () => {
    for (const players of [1, 2, 5, 8]) {
      const worth = gameByChance(players, players);
      const sum = firstOf(exactShares(players, worth).shares).reduce((one, other) => one + other, 0);
      expect(sum).toBeCloseTo(at(worth(Array.from({ length: players }, () => true)), 0), 13);
    }
  });

  it("are alike for two players who add the same to everyone else", () => {
    const worth: Worth = ([a, b, c]) => [(a || b ? 2 : 0) + (a && b && c ? 5 : 0) + (c ? 0.5 : 0)];
    const [a, b, c] = firstOf(exactShares(3, worth).shares);
    expect(a).toBeCloseTo(b ?? Number.NaN, 14);
    expect(c).not.toBeCloseTo(b ?? Number.NaN, 2);
  });

  it("are nothing for who adds nothing to anybody", () => {
    const others = gameByChance(4, 9);
    const shares = firstOf(exactShares(5, ([, ...rest]) => others(rest)).shares);
    expect(shares[0]).toBeCloseTo(0, 15);
  });

  it("of two games together are the sums of those of each", () => {
    const [one, other] = [gameByChance(5, 1), gameByChance(5, 2)];
    const both = exactShares(5, (coalition) => [at(one(coalition), 0) + at(other(coalition), 0)]);
    const each = exactShares(5, (coalition) => [at(one(coalition), 0), at(other(coalition), 0)]);
    for (const [k, share] of both.shares.entries())
      expect(at(share, 0)).toBeCloseTo(at(at(each.shares, k), 0) + at(at(each.shares, k), 1), 14);
  });
});

describe("shares by orders drawn", () => {
  // Five of fifteen have a veto, nine must agree: L.S. Shapley and M. Shubik, "A method for evaluating the distribution of power
  // in a committee system", American Political Science Review 48 (1954), with the council of today: 421/2145 and 4/2145.
  it("are near the published power of a council's members, within the error they state", () => {
    const council: Worth = (members) => [countOf(members, 0, 5) === 5 && countOf(members) >= 9 ? 1 : 0];
    const { shares, errors, orders } = sharesOf(15, council);
    expect(orders).toBeGreaterThan(0);
    for (const [k, share] of firstOf(shares).entries()) {
      const wanted = k < 5 ? 421 / 2145 : 4 / 2145;
      // A member who never decided in 80 orders shows no scatter: twice 1/80 is what its absence leaves open.
      expect(Math.abs(share - wanted)).toBeLessThan(Math.max(1.5 * at(at(errors ?? [], k), 0), 2 / (orders ?? 1)));
    }
  });

  it("hold the exact ones within twice their standard error in some 95 of 100 cases", () => {
    let [inside, all] = [0, 0];
    for (let seed = 0; seed < 40; seed++) {
      const worth = gameByChance(6, 100 + seed);
      const exact = firstOf(exactShares(6, worth).shares);
      const { shares, errors } = sampledShares(6, worth);
      for (const [k, share] of firstOf(shares).entries()) {
        all++;
        if (Math.abs(share - at(exact, k)) <= at(at(errors ?? [], k), 0)) inside++;
      }
    }
    // Of 240 cases 228 are wanted; by chance alone (binomial, 3 sigma) 218 to 238.
    expect(inside / all).toBeGreaterThan(218 / 240);
    expect(inside / all).toBeLessThan(1);
  });

  it("add up to the whole all the same, and are the same every time", () => {
    const worth = gameByChance(12, 3);
    const [one, other] = [sharesOf(12, worth), sharesOf(12, worth)];
    expect(one).toEqual(other);
    const sum = firstOf(one.shares).reduce((so, share) => so + share, 0);
    expect(sum).toBeCloseTo(at(worth(Array.from({ length: 12 }, () => true)), 0), 13);
  });

  it("are drawn only for more players than can be looked at exactly", () => {
    expect(sharesOf(MOST_EXACT, () => [0]).errors).toBeNull();
    expect(sharesOf(MOST_EXACT + 1, () => [0]).errors).not.toBeNull();
  });
});
