// Numbers of a model that go together: groups of them that correlations join, and how scores of a group are made from
// independent ones. What is declared is rounded, and small correlations may have been left out, so that it need not be a set
// that numbers can have; the nearest that is stands in for it.
import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { at } from "../base/at.js";
import type { Spread } from "../base/spread.js";
import type { Correlation } from "./airframe.js";
import { largestDifference, nearestCorrelations } from "./nearest-correlations.js";

/** Numbers that go together, directly or through others; every other number is for itself. */
export interface Together {
  /** Places among the spreads, rising. */
  readonly members: readonly number[];
  /** Of the members' scores, as declared: 1 on the diagonal, 0 for a pair that is not among the correlations. */
  readonly declared: Matrix;
  /** What stands in for it; the same where numbers can have those. */
  readonly matrix: Matrix;
}

/** In the order of the spreads; both keys of every correlation are among them. */
export function groupsOf(spreads: Keys, correlations: readonly Correlation[]): Together[] {
  const pairs = pairsOf(spreads, correlations);
  return membersOf(pairs).map((members) => {
    const declared = Matrix.eye(members.length);
    for (const [one, other, correlation] of pairs) {
      const [i, j] = [members.indexOf(one), members.indexOf(other)];
      if (i < 0) continue;
      declared.set(i, j, correlation);
      declared.set(j, i, correlation);
    }
    return { members, declared, matrix: possible(declared) };
  });
}

/** The members of each group. */
export const memberGroups = (spreads: Keys, correlations: readonly Correlation[]): number[][] =>
  membersOf(pairsOf(spreads, correlations));

type Keys = readonly Pick<Spread, "key">[];
type Pair = readonly [one: number, other: number, correlation: number];

function pairsOf(spreads: Keys, correlations: readonly Correlation[]): Pair[] {
  const place = new Map(spreads.map(({ key }, k) => [key, k]));
  return correlations.flatMap(({ one, other, correlation }): Pair[] => {
    const [i, j] = [place.get(one), place.get(other)];
    return i === undefined || j === undefined || correlation === 0 ? [] : [[i, j, correlation]];
  });
}

function membersOf(pairs: readonly Pair[]): number[][] {
  let groups: Set<number>[] = [];
  for (const [one, other] of pairs) {
    const joined = groups.filter((group) => group.has(one) || group.has(other));
    groups = groups.filter((group) => !joined.includes(group));
    groups.push(new Set([one, other, ...joined.flatMap((group) => [...group])]));
  }
  return groups.map((group) => [...group].sort((a, b) => a - b)).sort((a, b) => at(a, 0) - at(b, 0));
}

/** Least entry on the diagonal of a factor; smaller ones are rounding. */
const LEAST_PIVOT = 1e-5;

/** The same correlations where numbers can have them, the nearest that they can have where not. */
export function possible(declared: Matrix): Matrix {
  const decomposed = new CholeskyDecomposition(declared);
  const pivots = decomposed.lowerTriangularMatrix.diagonal();
  return decomposed.isPositiveDefinite() && Math.min(...pivots) >= LEAST_PIVOT
    ? declared
    : nearestCorrelations(declared);
}

/** Lower triangle L: correlated scores are L times independent ones (A.-L. Cholesky). By plain arithmetic and roots. */
export const factorOf = (matrix: Matrix): Matrix => new CholeskyDecomposition(matrix).lowerTriangularMatrix;

/** By how much the furthest correlation differs from what is declared. */
export const mendedBy = ({ declared, matrix }: Together): number => largestDifference(declared, matrix);

/** The correlations of all the spreads' scores, rows as `spreads`: what draws are made by. */
export function correlationMatrix(spreads: Keys, correlations: readonly Correlation[]): Matrix {
  const whole = Matrix.eye(spreads.length);
  for (const { members, matrix } of groupsOf(spreads, correlations))
    for (const [i, row] of members.entries())
      for (const [j, column] of members.entries()) whole.set(row, column, matrix.get(i, j));
  return whole;
}
