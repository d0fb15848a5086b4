// How far a counted share may be from the true one: C.J. Clopper and E.S. Pearson, "The use of confidence or fiducial limits
// illustrated in the case of the binomial", Biometrika 26 (1934) 404-413. Never narrower than it says.
import { at } from "./at.js";

/** The 95 % interval of a share of which `count` of `of` were seen, fractions. */
export function shareInterval(count: number, of: number, level = 0.95): readonly [low: number, high: number] {
  const beyond = (1 - level) / 2;
  const low = count === 0 ? 0 : rootOf((share) => tailFrom(count, of, share) - beyond);
  const high = count === of ? 1 : rootOf((share) => 1 - tailFrom(count + 1, of, share) - beyond, -1);
  return [low, high];
}

const ROUNDS = 60;

/** Where a function of a share changes sign, rising (1) or falling (-1). */
function rootOf(f: (share: number) => number, direction = 1): number {
  let [low, high] = [0, 1];
  for (let round = 0; round < ROUNDS; round++) {
    const middle = 0.5 * (low + high);
    if (direction * f(middle) < 0) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

/**
 * How often chance alone parts `lost` and `gained` pairs at least as unevenly, either way, where both are as likely: the exact
 * form of Q. McNemar, "Note on the sampling error of the difference between correlated proportions", Psychometrika 12 (1947)
 * 153-157 (from memory). Pairs that are equal on both sides say nothing.
 */
export function chanceOfPairs(lost: number, gained: number): number {
  return Math.min(1, 2 * tailFrom(Math.max(lost, gained), lost + gained, 0.5));
}

/** Probability of `count` or more of `of`; terms relative to the largest, so that none is lost. */
function tailFrom(count: number, of: number, share: number): number {
  if (share <= 0) return count <= 0 ? 1 : 0;
  if (share >= 1) return 1;
  const mode = Math.min(of, Math.floor((of + 1) * share));
  const terms = new Float64Array(of + 1);
  terms[mode] = 1;
  const odds = share / (1 - share);
  for (let k = mode + 1; k <= of; k++) terms[k] = at(terms, k - 1) * ((of - k + 1) / k) * odds;
  for (let k = mode - 1; k >= 0; k--) terms[k] = (at(terms, k + 1) * ((k + 1) / (of - k))) / odds;
  let [above, all] = [0, 0];
  for (const [k, term] of terms.entries()) {
    all += term;
    if (k >= count) above += term;
  }
  return above / all;
}
